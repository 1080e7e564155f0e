#pragma once

#include "engine/assist/files.hpp"

#include <memory>
#include <string>
#include <string_view>
#include <vector>

/// A language server for recipes, kitchens and house files: the Language Server Protocol 3.17, in
/// JSON-RPC 2.0. Messages in, messages out; the same answers to the same messages, whatever the
/// clock says. Which requests it knows stands in docs/how-to/editor.md.
namespace jarful::assist {

class Server {
  public:
    /// @param files has to outlive it.
    explicit Server(const Files& files);
    ~Server();
    Server(Server&&) noexcept;
    Server& operator=(Server&&) noexcept;

    /// Takes in a message, without its header. What cannot be read is answered by an error. Never
    /// throws for any bytes.
    void receive(std::string_view message);
    /// Takes in that a message could not be read at all, with the reason in a sentence.
    void receive_trouble(const std::string& sentence);

    /// Whether nothing waits to be done.
    [[nodiscard]] bool idle() const;
    /// How many messages wait to be dealt with.
    [[nodiscard]] std::size_t waiting() const;
    /// Does one thing that waits, the oldest first: answers a message, or, when none is left, looks
    /// at what was changed. (So what is typed fast is looked at once, and a request may be
    /// cancelled while it waits.)
    /// @return messages to send, without headers.
    [[nodiscard]] std::vector<std::string> work();

    /// Whether the client said `exit`.
    [[nodiscard]] bool ended() const;
    /// Whether it said `shutdown` before, as it should.
    [[nodiscard]] bool ended_well() const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace jarful::assist
