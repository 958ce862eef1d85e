/* fork.h - what is said to whoever meets a fork: the chain of one device that was gone on
 * with twice. */
#ifndef MF_JOURNAL_FORK_H
#define MF_JOURNAL_FORK_H

#define MF_FORK_WAY_OUT                                                                            \
    "log nothing more in the book whose history the others do not have; at a device that has the " \
    "other: mistfold book copy FILE --device NEW, and log anew in FILE what is missing there"

#endif
