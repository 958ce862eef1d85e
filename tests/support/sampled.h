/* sampled.h - under the sanitizers, where everything takes several times as long, one of so many is
 * tried; make check tries them all. */
#ifndef TESTS_SUPPORT_SAMPLED_H
#define TESTS_SUPPORT_SAMPLED_H

#if defined(__SANITIZE_ADDRESS__)
enum { ONE_IN = 4 };
#else
enum { ONE_IN = 1 };
#endif

#endif
