# Read by ctest itself before it begins: tests compare English words and points in numbers, whatever
# language and numbers the machine has. What a test needs otherwise it says itself.
set(ENV{LC_ALL} C.UTF-8)
set(ENV{LANG} C.UTF-8)
set(ENV{LANGUAGE} "")
