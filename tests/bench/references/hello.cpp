#include <iostream>

// The least that a C++ program with streams can do.
int main() {
    std::cout << "hello\n";
}
