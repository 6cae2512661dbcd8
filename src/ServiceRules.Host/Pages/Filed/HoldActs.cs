using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Pages.Forms;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>What the forms of holds have in common, at the page of a record and at that of all holds.</summary>
internal static class HoldActs
{
    public const string Form = "hold";
    public const string ReasonHint = "It stays in the log for good, so it names nobody.";

    public static string LiftForm(string hold) => $"lift-{hold}";

    /// <summary>Who answers for it, and why; null: what is wrong with that stands at the fields.</summary>
    public static Correction? Why(SentForm sent, Caller caller, params IReadOnlyList<SiteRegisters> registers)
    {
        var by = WhoAndWhy.Person(sent, caller, registers);
        var reason = WhoAndWhy.Sentence(sent, registers);
        return by is null || reason is null ? null : new(by, reason);
    }

    /// <summary>Lifts a hold, once: whoever asks again is told what the first time came to.</summary>
    /// <param name="find">How the hold stands; null: there is none.</param>
    /// <returns>The entry that lifted it; null: what is wrong stands in the form.</returns>
    public static long? Lift(
        OpenLedger ledger,
        Func<Hold?> find,
        SentForm sent,
        Caller caller,
        params IReadOnlyList<SiteRegisters> registers
    )
    {
        if (find() is not { Lifted: null } hold)
        {
            return find()?.Lifted?.Index;
        }

        if (Why(sent, caller, registers) is not { } why)
        {
            return null;
        }

        var outcome = new KeepHolds(ledger).Lift(hold.Id, why, caller.Name);
        return outcome is FilingOutcome.Refused && find() is { Lifted: { } meanwhile }
            ? meanwhile.Index
            : Entered(sent, outcome);
    }

    /// <summary>The entry that it became; null: what is wrong stands in the form.</summary>
    public static long? Entered(SentForm sent, FilingOutcome outcome)
    {
        switch (outcome)
        {
            case FilingOutcome.Filed filed:
                return filed.Entries[0].Entry.Index;
            case FilingOutcome.Refused refused:
                sent.Refuse(refused.Refusal.What, refused.Refusal.Accepted);
                return null;
            case FilingOutcome.Broken broken:
                throw new BrokenLogException(broken.Fault);
            default:
                throw new InvalidOperationException("an unknown outcome of a filing");
        }
    }
}
