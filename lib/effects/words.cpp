#include <whichwire/network.hpp>
