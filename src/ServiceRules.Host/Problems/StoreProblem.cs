using ServiceRules.Application.Ledger;

namespace ServiceRules.Host.Problems;

/// <summary>How trouble of the store is told to whoever asked: what was done, and nothing of where it is.</summary>
internal static class StoreProblem
{
    public static (ProblemKind Kind, string Detail) Broken =>
        (ProblemKind.Storage, "the ledger is not sound; nothing is filed in it");

    public static (ProblemKind Kind, string Detail) Of(LedgerStoreException failure)
    {
        var (kind, detail) = Of(failure.Trouble);
        return (kind, failure.Place is { } place ? $"{place}: {detail}" : detail);
    }

    public static (ProblemKind Kind, string Detail) Of(StoreTrouble trouble) =>
        trouble switch
        {
            StoreTrouble.Full => (ProblemKind.Full, "no room is left on the disk"),
            StoreTrouble.Busy => (ProblemKind.Busy, "too much waits for the store; ask again in a moment"),
            StoreTrouble.Overtaken => (
                ProblemKind.Busy,
                "other rules came into force, or other waivers, again and again while it was judged, so nothing was stored; send it again"
            ),
            StoreTrouble.ReadOnly => (
                ProblemKind.Storage,
                "the store may not be written to now; nothing was stored"
            ),
            StoreTrouble.Outdated => (
                ProblemKind.Storage,
                "the installation became one of several sites since this instance was started, which has to be started again; nothing was stored"
            ),
            StoreTrouble.NotShelved => (
                ProblemKind.Storage,
                "it was stored, but its checkpoint could not be kept outside; the same again is answered by what stands"
            ),
            StoreTrouble.Gone => (
                ProblemKind.Storage,
                "the store cannot be reached; what was sent may stand, and the same again is answered by that"
            ),
            StoreTrouble.Rows => (
                ProblemKind.Lists,
                "what lists and searches are made of is not what was made of the log, so nothing is told or stored by it; whoever runs "
                    + "the service sees by `servicerules ledger verify` what differs, and makes it anew by `servicerules ledger rows --rebuild`"
            ),
            StoreTrouble.Damaged => (
                ProblemKind.Storage,
                "something that is stored is damaged or lost, and nothing was stored or told by it; whoever runs the service sees by "
                    + "`servicerules ledger verify` what, and puts contents back by `servicerules ledger mend`"
            ),
            _ => (ProblemKind.Storage, "the store failed; nothing was stored"),
        };
}
