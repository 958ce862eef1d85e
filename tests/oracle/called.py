"""A job that was called off before any work: nobody is to do it, so nothing of it may be torn out, 745.85(a).
What was logged of work is believed before the word that there was none, 745.86(a)."""
from contain import WORK_STEPS

CLEANING = ("chips", "sheeting", "divider", "walls", "surfaces", "carpet", "mop", "margin", "clean-outside")


def begun(job):
    """Paint was disturbed, or what comes after that was done or said."""
    done = [t.step for t in job.all("tick", state="done")]
    return (any(p.planned != "yes" for p in job.all("practice"))
            or any(s in CLEANING or (s in WORK_STEPS and s != "barriers-whole") for s in done)
            or any(s.required == "yes" and s.blank != "yes" for s in job.all("dust_sample"))
            or any(job.all(kind) for kind in ("verification", "completion", "certification", "invoice")))


def said(job):
    """Nothing may be torn out, whatever was logged: of two words that contradict each other the stricter one."""
    on = job.house.called_off
    return ["745.85(a) called off"] if on is not None and on <= job.today else []


def off(job):
    """745.83, 745.85(a): no renovation is to begin; nothing was modified, so no signs, record or copy is owed for it,
    and nothing of it can be shown to have been done right."""
    return [] if begun(job) else said(job)
