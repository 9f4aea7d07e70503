// A wish to stop (SIGINT, SIGTERM) that lets what is begun come to a clean end. Another one, a second or more after the
// first, ends the program at once.
#pragma once

namespace whichwire::cli {

/// From now on the two signals are a wish.
void stop_when_asked();

/// Whether there was one. Any thread may ask.
bool stop_wanted();

/// The exit status that a shell expects of a program that such a signal ended.
int status_of_stop();

}  // namespace whichwire::cli
