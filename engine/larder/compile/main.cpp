#include "engine/larder/compile/facts.hpp"

#include <cstdio>
#include <exception>
#include <fstream>
#include <string>
#include <vector>

/// Compiles the larder's data files into C++: `jarful_larder_compile FOLDER OUTPUT`.
/// Exit status 0 if the tables were written, 1 if the data is faulty, 2 for wrong use.
int main(int argc, char** argv) {
    using namespace jarful::larder::compile;
    if (argc != 3) {
        std::fputs("usage: jarful_larder_compile FOLDER OUTPUT\n", stderr);
        return 2;
    }
    std::vector<std::string> faults;
    const Facts facts = read_facts(argv[1], faults);
    if (!faults.empty()) {
        for (const std::string& fault : faults)
            std::fprintf(stderr, "larder: %s\n", fault.c_str());
        return 1;
    }
    std::string tables;
    try {
        tables = write_tables(facts);
    } catch (const std::exception& x) {
        std::fprintf(stderr, "larder: %s\n", x.what());
        return 1;
    }
    std::ofstream out(argv[2], std::ios::binary | std::ios::trunc);
    out << tables;
    out.close();
    if (!out) {
        std::fprintf(stderr, "larder: %s cannot be written.\n", argv[2]);
        return 2;
    }
    return 0;
}
