"""Asks the program (answer.c, built), on all processors."""
import multiprocessing
import os
import subprocess


def run(program, text, *options):
    """The lines it prints of the jobs in text."""
    done = subprocess.run([program, *options], input=text, stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, text=True, check=False)
    if done.returncode != 0:
        raise RuntimeError("the program failed: " + done.stderr)  # SystemExit would end a worker without a word
    return done.stdout.splitlines()


def of_chunks(a, size, fn):
    """What fn((program, seed, numbers)) finds, for all jobs asked for, so many at a time."""
    work = [(a.answer, a.seed, range(n, min(n + size, a.jobs)))
            for n in range(a.first, a.jobs, size)]
    with multiprocessing.Pool(os.cpu_count()) as pool:
        for found in pool.imap(fn, work):
            yield from found
