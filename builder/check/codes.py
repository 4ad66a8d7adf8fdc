"""The problems that whole-book checks can find."""

from __future__ import annotations

from builder.model.problem import Code

STATE_MISSING = Code("C301", "state_missing", """\
A rule says that a step needs a state - clean, protected, measured, braced - and at that step it does not hold: no step
before it makes it, or a later step spoiled it again. The rule's own reason stands with the message. Put the step that
makes the state in its place, or say with `except` and a reason why the rule does not bind here.""")

STATE_FORBIDDEN = Code("C302", "state_forbidden", """\
A rule forbids a step while a state holds, such as sparks while vapour that burns is about. Put the step that ends the
state before it.""")

STATE_OWED = Code("C303", "state_owed", """\
A step leaves something owed - a bead, a recoat, a fire watch - and the procedure ends without it, or a later step
spoiled it again.""")

WRONG_ORDER = Code("C304", "wrong_order", """\
A rule says which of two acts on the same subject comes first where a procedure has both, and they stand the other way
round.""")

NEEDLESS_EXEMPTION = Code("C305", "needless_exemption", """\
A step sets a rule aside with `except`, but does not break it: the rule is kept there, or does not speak of such a step.
An exemption that is not needed hides the day on which it would be: take it out.""")

RELIES_IN_A_CIRCLE = Code("C306", "relies_in_a_circle", """\
Procedures rely on one another in a circle, so none of them could be done first.""")

ACT_ON_STRANGER = Code("C307", "act_on_stranger", """\
A step does an act on a kind of subject that the act is not for, such as drilling plug holes in a cavity. Look at the
act's record for what it may be done on.""")

KEPT_STRANGER = Code("C308", "kept_stranger", """\
A step keeps a panel that is no sheet of any seam it works on.""")

METHOD_NOT_ALLOWED = Code("C309", "method_not_allowed", """\
A step joins a seam by a method that the seam's record does not allow for its repair.""")

UNKNOWN_VIEW = Code("C310", "unknown_view", """\
A panel is drawn, or a twin is made, from a view that no shell of the book has. Most often the name is misspelt; the
views and their names stand in the shell's record.""")

OFF_ITS_VIEW = Code("C311", "off_its_view", """\
A line of the body drawing runs off its view. Points are counted from the view's upper left corner, x to the right and
y down, and a view is as wide and as high as the shell's record says. What lies outside would be cut off.""")

LINE_TOO_SHORT = Code("C312", "line_too_short", """\
A panel's outline needs three points at least, since two enclose nothing that could be seen or pressed; a line of the
shell needs two.""")

VIEW_NAME_TAKEN = Code("C313", "view_name_taken", """\
Two views of the book's shells have the same name. A panel says by a view's name where it is drawn, so each name is
given once, in all shells together.""")

STEP_LACKS = Code("C314", "step_lacks", """\
A rule asks that a step of this kind carries something: the readings to record, a hold that somebody releases, a
photograph, a wait that somebody stays for, the method of joining, or a calculator's answer. Add it to the step.""")

PLANNING_NAMES_NOTHING = Code("C315", "planning_names_nothing", """\
`planning.yaml` names an act, a tool, a calculator or an answer that the book does not have, or a place or a trait that
the file itself does not have. A job would be planned as though that line did not stand there.""")

STEP_OF_NO_RUN = Code("C316", "step_of_no_run", """\
A job says something of a step - that it is done, what was read, who released it - and the step belongs to a procedure
that the job does not do, or not on that side of the car. Left and right are two things.""")

SIDE_THAT_DOES_NOT_FIT = Code("C317", "side_that_does_not_fit", """\
A job chooses a procedure without a side where a car has what it works on twice, or with a side where it has it once.
Steps are named by procedure and side, so neither can be guessed.""")

UNKNOWN_MEASURE = Code("C318", "unknown_measure", """\
A job holds a reading that its step does not ask for. A reading is named by its step, a stroke and the measure's name as
the procedure has it: `procedure@left#step-key/Name of the measure`.""")

LEANS_ON_UNISSUED = Code("C319", "leans_on_unissued", """\
A procedure that is issued relies on one that is not, a withdrawn one sends its readers to another that is withdrawn, or
a lesson asks what a withdrawn one says.
Whoever works from the book would come to a page that says not to work from it. Of a draft it is a warning, since it may
be issued yet.""")

TEST_NAMES_NOTHING = Code("C320", "test_names_nothing", """\
A question or a practical test of a lesson names an input or an answer that its calculator does not have, or numbers for
a calculator that the lesson does not ask. Most often the name is misspelt; the calculator's own page lists both.""")

TEST_GIVES_WRONG = Code("C321", "test_gives_wrong", """\
A practical test gives its calculator a value that it does not admit, leaves out one that it needs, or is passed with an
answer that cannot come about; or numbers are to be drawn for a question that the input does not admit.""")

NOTHING_TO_ASK = Code("C322", "nothing_to_ask", """\
A lesson draws questions or a test from something that gives none: a procedure or a phase with fewer than four steps, a
calculator that answers with a text alone, or one that works on a table of points.""")

TEST_JUDGES_NOTHING = Code("C323", "test_judges_nothing", """\
A practical test says neither with which answer it is passed after something was measured, nor which answer the learner
finds alone. Everybody would pass it, or nobody.""")

PATH_OUT_OF_ORDER = Code("C324", "path_out_of_order", """\
In a path a lesson stands before one that it comes after, or stands there twice. Whoever follows the path would be
taught what rests on a lesson they have not had.""")

IN_NO_PATH = Code("C325", "lesson_in_no_path", """\
The book has paths, and none of them has this lesson. A new hire who follows a path never comes to it.""")

TAUGHT_BY_NOBODY = Code("C326", "skill_taught_by_nobody", """\
No lesson teaches a skill that the book has. It stands in the skills matrix, and nobody can be shown the way to it.""")

LESSON_BEHIND = Code("C327", "lesson_behind", """\
A procedure that a lesson names was revised after the day on which the lesson was last read through. Its questions are
made anew by themselves; what the trainer shows and says may not fit any more. Read the lesson against the revision.""")

NO_TRAINING = Code("C328", "no_training_settings", """\
A lesson draws questions, and no layer of the book has a `training.yaml` that says how many are asked and how many
right answers pass. Until one does, nothing is asked.""")

CODES = (STATE_MISSING, STATE_FORBIDDEN, STATE_OWED, WRONG_ORDER, NEEDLESS_EXEMPTION, RELIES_IN_A_CIRCLE,
         ACT_ON_STRANGER, KEPT_STRANGER, METHOD_NOT_ALLOWED, UNKNOWN_VIEW, OFF_ITS_VIEW, LINE_TOO_SHORT,
         VIEW_NAME_TAKEN, STEP_LACKS, PLANNING_NAMES_NOTHING, STEP_OF_NO_RUN, SIDE_THAT_DOES_NOT_FIT,
         UNKNOWN_MEASURE, LEANS_ON_UNISSUED, TEST_NAMES_NOTHING, TEST_GIVES_WRONG, NOTHING_TO_ASK,
         TEST_JUDGES_NOTHING, PATH_OUT_OF_ORDER, IN_NO_PATH, TAUGHT_BY_NOBODY, LESSON_BEHIND, NO_TRAINING)  # fmt: skip
