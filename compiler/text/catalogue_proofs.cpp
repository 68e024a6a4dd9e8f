#include "text/catalogue.h"

#include <array>

// What the checker refuses or warns of. The exact definitions are in compiler/reference/proofs.md; here they are told
// to the person who writes the procedure.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{
        "open-path", Severity::error, "Something runs out that no step says",
        "After this move, what a supply or pump pushes can run out at a place that no flow covering this moment names. "
        "That is how antifreeze gets on the ground or into the drinking-water tank, and how a person is sprayed.\n\n"
        "The message shows the way it takes, and in which positions of the parts. Either shut that way before this "
        "move, or, if it is meant, name it with `flow … to … until …`."},
    CatalogueEntry{
        "needs-verify", Severity::error, "Safe only if a part stands as it is supposed to",
        "Nobody can say how this part stands: no step has set it. In one of its positions the procedure is safe, in "
        "another something is refused.\n\n"
        "Let the operator look before it matters (`verify PART is POSITION`), set the part, or ask for it in "
        "`requires`. The same holds of something that already runs when the procedure begins and that no flow names."},
    CatalogueEntry{
        "blocked-flow", Severity::error, "A flow or drain that cannot run",
        "The step waits for something to be seen, but with the parts as they stand nothing moves there: a valve on the "
        "way is shut, no source pushes, or, for a drain, no other opening lets air in, or the outlet stands higher "
        "than "
        "what is to be drained. The operator would wait in vain, or take the silence for success.\n\n"
        "Open the way or the air inlet first."},
    CatalogueEntry{
        "left-running", Severity::error, "A flow that nobody stops",
        "At the end of this step a flow still runs. A step is a place where people stop to read, rest or walk away.\n\n"
        "Shut it in the step, or say `keep flow … to …` and name it again in the next step."},
    CatalogueEntry{
        "undeclared-drain", Severity::error, "Something runs out by its weight that no step says",
        "After this move the contents of a chamber can fall out at a place that no drain covering this moment names. "
        "It may be hot, foul or antifreeze. If the chamber can only hold water of fluid category 1 or 2 this is a "
        "warning.\n\n"
        "Shut the way, or name it with `drain … through … until stops`. Contents of a water heater may scald: let it "
        "cool, and follow its manual."},
    CatalogueEntry{
        "dead-head", Severity::error, "A pump works against shut lines",
        "A pump without a pressure switch of its own is on, and nothing is open on its outlet side. It heats what it "
        "holds and can be damaged.\n\n"
        "Open an outlet before switching it on, or switch it off before shutting the last one."},
    CatalogueEntry{
        "dry-run", Severity::error, "A pump draws air",
        "A pump is on while what it draws on may be empty, open to the air, or shut off. Its seals and valves need "
        "liquid.\n\n"
        "Make sure of the liquid first (`verify TANK holds FLUID`, a flow `until full`), shut the way by which air "
        "comes, or, if the maker permits it, say `may run dry T` in its kind."},
    CatalogueEntry{
        "over-pressure", Severity::error, "More pressure than a part is rated for",
        "A source can push more on this part than the part is rated for, and neither a reducer on the way nor a relief "
        "valve keeps it below.\n\n"
        "Set the regulator lower before opening the way. Pressure ratings are the maker's; for mains and gas-fired "
        "equipment follow local codes and leave the work to licensed people."},
    CatalogueEntry{
        "guard", Severity::error, "A condition of the part does not hold",
        "The kind of this part says what must hold before it is put in this position, or as long as it stands there, "
        "and it may not hold here. Such guards keep a heater from being fired dry or a filter from being opened under "
        "pressure. The message gives the reason that the kind states.\n\n"
        "An end can be coupled only while it is open."},
    CatalogueEntry{
        "out-of-reach", Severity::error, "A part behind a shut cover",
        "The step asks to set, look at or couple a part, but at every place from which one can work it a lid or panel "
        "is still shut.\n\n"
        "Open the cover in an earlier move."},
    CatalogueEntry{"two-places", Severity::warning, "One person in two places",
                   "The step acts at one place and wants something seen at another at the same time.\n\n"
                   "Name a `helper`, or choose something to watch where the operator stands."},
    CatalogueEntry{
        "unmet-requires", Severity::error, "What is required may not hold",
        "A procedure, stage or step says what it needs at its start, and the moves before it do not see to it.\n\n"
        "The message shows one way in which the parts may stand so that it is false."},
    CatalogueEntry{"unmet-ensures", Severity::error, "What is promised may not hold",
                   "A procedure, stage or step says what holds at its end, and its moves do not see to it.\n\n"
                   "The message shows one way in which the parts may stand so that it is false."},
    CatalogueEntry{"never-true", Severity::error, "A condition that cannot be met",
                   "In no state that the procedure can be in at this point is this condition true: the operator would "
                   "stand before "
                   "a valve that is never as the sheet says. What follows is not checked.\n\n"
                   "Often a part was moved earlier, or two conditions contradict each other."},
    CatalogueEntry{
        "no-effect", Severity::warning, "A move that changes nothing",
        "Every part that this move sets already stands so, however the procedure got here. Such moves cost walking, "
        "and they teach people to skip.\n\n"
        "Leave it out, or make it a `verify` if it is meant as a second look."},
    CatalogueEntry{"unused-part", Severity::warning, "A part that nothing mentions",
                   "The part has positions, but no procedure, line-up or fragment names it. Nobody is told how it "
                   "should stand.\n\n"
                   "Put it into the line-up for use and for storage."},
    CatalogueEntry{
        "not-decided", Severity::error, "Not proved within the budget",
        "The question is one of the rare hard ones, and the checker stops rather than guess. It says neither that the "
        "procedure is safe nor that it is not, and the procedure counts as refused.\n\n"
        "Fewer unknown positions help: `verify` or set parts early, or ask for them in `requires`."},
};

} // namespace

std::span<const CatalogueEntry> proofs_catalogue() {
    return entries;
}

} // namespace curbstop::text
