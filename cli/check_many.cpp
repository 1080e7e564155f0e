#include "cli/check_many.hpp"

#include "cli/side_by_side.hpp"
#include "cli/terminal.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <unistd.h>
#include <vector>

namespace jarful::cli {

namespace {

/// Files taken at a time: enough that the threads seldom wait for each other.
constexpr std::size_t batch_size = 32;
/// Results are written in pieces of about this size.
constexpr std::size_t piece_size = 256 * 1024;

class Checking {
  public:
    Checking(std::size_t count, CheckForm form)
        : count_(count)
        , form_(form)
        , hold_(::isatty(STDOUT_FILENO) != 0)
        , style_(result_style())
        , batches_((count + batch_size - 1) / batch_size)
        , progress_(count) {
        if (form_ == CheckForm::json) piece_ = render::check_json_begin();
    }

    ManyChecked run(const std::function<LookAt()>& make_look) {
        side_by_side(batches_.size(), [&](bool caller) {
            return [this, caller, look = make_look()](std::size_t batch) {
                Batch done = one(look, batch, caller);
                const std::lock_guard<std::mutex> lock(mutex_);
                batches_[batch] = std::move(done);
                hand_on();
            };
        });
        progress_.done();
        piece_ += end();
        write_piece();
        return std::move(out_);
    }

  private:
    struct Batch {
        std::string text;
        render::CheckSummary sum;
        bool done = false;
    };

    [[nodiscard]] std::string end() const {
        switch (form_) {
        case CheckForm::screen:
            return render::check_screen(out_.sum, style_);
        case CheckForm::full:
            return render::check_text_end(out_.sum, style_);
        case CheckForm::json:
            break;
        }
        return render::check_json_end(out_.sum);
    }

    Batch one(const LookAt& look, std::size_t batch, bool first) {
        Batch out;
        const std::size_t begin = batch * batch_size;
        const std::size_t end = std::min(count_, begin + batch_size);
        for (std::size_t i = begin; i < end; ++i) {
            const render::CheckedFile file = look(i);
            if (form_ == CheckForm::json) {
                if (i > 0) out.text += ',';
                out.text += render::check_json_of(file);
            } else if (form_ == CheckForm::full) {
                out.text += render::check_text_of(file, style_);
            }
            out.sum.add(file);
            ++looked_at_;
            if (first) progress_.at(looked_at_);
        }
        out.done = true;
        return out;
    }

    /// What is known, in order. Called by one thread at a time.
    void hand_on() {
        while (handed_on_ < batches_.size() && batches_[handed_on_].done) {
            Batch& batch = batches_[handed_on_++];
            piece_ += batch.text;
            out_.sum.add(batch.sum);
            batch.text = {};
        }
        if (!hold_ && piece_.size() >= piece_size) write_piece();
    }

    void write_piece() {
        if (out_.written) out_.written = write_result(piece_);
        piece_.clear();
    }

    std::size_t count_;
    CheckForm form_;
    bool hold_;
    render::TextStyle style_;
    std::vector<Batch> batches_;
    std::atomic<std::size_t> looked_at_ = 0;
    Progress progress_;
    std::mutex mutex_; ///< for all that follows
    std::size_t handed_on_ = 0;
    std::string piece_;
    ManyChecked out_;
};

} // namespace

ManyChecked check_many(std::size_t count, const std::function<LookAt()>& make_look,
                       CheckForm form) {
    return Checking(count, form).run(make_look);
}

} // namespace jarful::cli
