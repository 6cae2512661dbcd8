using ServiceRules.Application.Accounts;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Keeping;

/// <summary>Makes and lifts holds: entries of the log, so that nobody lifts one unseen.</summary>
public sealed class KeepHolds(OpenLedger ledger)
{
    /// <param name="scope">What is kept.</param>
    /// <param name="why">Who answers for it, and why.</param>
    /// <param name="caller">Who asks, as acts name it.</param>
    public FilingOutcome Add(HoldDocument scope, Correction why, string caller)
    {
        ArgumentNullException.ThrowIfNull(scope);
        ArgumentNullException.ThrowIfNull(why);
        return scope.IsLifted || scope.NamesNothing
                ? Refused(
                    "it names nothing that is kept",
                    "a record, a machine, a person, a first or a last day"
                )
            : scope.From > scope.Until
                ? Refused("its last day is before its first", "from and until in this order")
            : ledger.File(log =>
            {
                var holds = HoldsOfLog.Read(log).All;
                var id = HoldsOfLog.NameOf(holds.Length + 1);
                return Standing(log, holds, scope, why) is { } standing
                    ? new FilingPlan.File([new FilingPart.Standing(standing.Entry)], [])
                    : Plan(log, id, scope, why, new(ledger.Now, AccountAct.HoldAdded, caller, "hold:" + id));
            });
    }

    /// <param name="id">The hold.</param>
    /// <param name="why">Who answers for it, and why.</param>
    /// <param name="caller">Who asks, as acts name it.</param>
    public FilingOutcome Lift(string id, Correction why, string caller)
    {
        ArgumentNullException.ThrowIfNull(why);
        return ledger.File(log =>
            HoldsOfLog.Read(log).All.FirstOrDefault(hold => hold.Id == id) switch
            {
                null => new FilingPlan.Refuse(new($"there is no hold `{id}`", "one that is listed")),
                { Lifted: { } lifted } => new FilingPlan.Refuse(
                    new($"`{id}` was lifted by {LedgerWords.Entry(lifted.Index)}", "one that holds")
                ),
                _ => Plan(
                    log,
                    id,
                    new() { IsLifted = true },
                    why,
                    new(ledger.Now, AccountAct.HoldLifted, caller, "hold:" + id)
                ),
            }
        );
    }

    // The same once more, in the same words of the same person, is what somebody sends who pressed twice.
    private static Hold? Standing(
        ILedgerWriting log,
        IEnumerable<Hold> holds,
        HoldDocument scope,
        Correction why
    ) =>
        log.PseudonymOf(why.By) is { } known
            ? holds.FirstOrDefault(hold =>
                hold.Holds
                && hold.Scope == scope
                && hold.Entry.Entry.By == known
                && hold.Entry.Entry.Reason == why.Reason
            )
            : null;

    private static FilingPlan.File Plan(
        ILedgerWriting log,
        string id,
        HoldDocument document,
        Correction why,
        AccountAct act
    ) =>
        LoggedActs.With(
            log,
            new FilingPlan.File(
                [
                    new FilingPart.New(
                        new EntryDraft(
                            EntryKind.Hold,
                            id,
                            CanonicalForm.Of(HoldFormat.Current.Write(document)).Bytes
                        )
                        {
                            Person = why.By,
                            Reason = why.Reason,
                        }
                    ),
                ],
                []
            ),
            [act]
        );

    private static FilingOutcome.Refused Refused(string what, string accepted) => new(new(what, accepted));
}
