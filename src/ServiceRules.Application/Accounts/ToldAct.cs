using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Accounts;

/// <summary>An act as it is shown: as its entry has it, where it has one.</summary>
/// <param name="Act">The act.</param>
/// <param name="Fault">Why it is not to be believed; null when it stands as the log has it, or beside the log.</param>
public sealed record ToldAct(AccountAct Act, string? Fault)
{
    /// <summary>Holds an act of the table against its entry.</summary>
    public static ToldAct Of(ILedgerReading log, AccountAct act)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(act);
        if (act.Entry is not { } index)
        {
            return new(act, null);
        }

        if (
            log.Entry(index) is not { } stored
            || !EntryReading.TryRead(stored, out var entry, out _)
            || entry.Entry.Kind is not EntryKind.Act
        )
        {
            return new(act, "no act stands there in the log");
        }

        if (
            log.Sound(entry.Entry.Content) is not { } bytes
            || !LoggedActFormat.Current.Read(bytes).TryGet(out var logged, out _)
        )
        {
            return new(act, $"what the log has there is {log.WhyNone(entry.Entry.Content)}");
        }

        return logged == LoggedActs.ContentOf(act)
            ? new(act, null)
            : new(
                new(logged.At, logged.What, logged.By, logged.About)
                {
                    Detail = logged.Detail,
                    Number = act.Number,
                    Entry = act.Entry,
                },
                "the table says otherwise: shown as the log has it"
            );
    }
}
