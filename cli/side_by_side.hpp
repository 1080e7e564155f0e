#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

/// Work on many things at once.
namespace jarful::cli {

/// Calls a worker with every number below `count`, on as many threads as the machine has cores
/// (this one among them), or as many as the system lets us have. Which number goes to which thread
/// is left open. What a worker throws ends the work and is thrown again here.
/// @param make_worker called once in each thread, so that workers share nothing; told whether it is
/// the thread of the caller. What it gives is called with a number.
template <class MakeWorker>
void side_by_side(std::size_t count, const MakeWorker& make_worker) {
    std::atomic<std::size_t> next = 0;
    std::mutex mutex;
    std::exception_ptr failed;
    const auto run = [&](bool caller) {
        try {
            const auto work = make_worker(caller);
            for (std::size_t i = next++; i < count; i = next++)
                work(i);
        } catch (...) {
            const std::lock_guard<std::mutex> lock(mutex);
            failed = std::current_exception();
            next = count;
        }
    };
    std::vector<std::thread> others;
    const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
    try {
        for (std::size_t i = 1; i < std::min(cores, count); ++i)
            others.emplace_back(run, false);
    } catch (const std::system_error&) {
        // No more threads are to be had: those that there are do the work.
    }
    run(true);
    for (std::thread& other : others)
        other.join();
    if (failed) std::rethrow_exception(failed);
}

} // namespace jarful::cli
