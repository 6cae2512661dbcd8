using ServiceRules.Application.Accounts;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Keeping;

/// <summary>How long contents are kept, as the log says it: for ever, where nothing was set.</summary>
/// <param name="Entry">Since when, by whom and why; null where nothing was set.</param>
/// <param name="Years">For how long.</param>
public sealed record RetentionOfLog(FiledEntry? Entry, Retention Years)
{
    /// <summary>What its entries, and those of what it removed, are about.</summary>
    public const string Subject = "retention";

    /// <exception cref="LedgerStoreException">What was set is gone: nothing may be removed by it.</exception>
    public static RetentionOfLog Read(ILedgerReading log)
    {
        ArgumentNullException.ThrowIfNull(log);
        var entry = EntryReading
            .About(log, Subject)
            .LastOrDefault(one => one.Entry.Kind is EntryKind.Retention);
        return entry is null ? new(null, Retention.Never)
            : log.Kept(entry.Entry.Content) is { } bytes
            && RetentionFormat.Current.Read(bytes).TryGet(out var years, out _)
                ? new(entry, years)
            : throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"how long contents are kept, {LedgerWords.Entry(entry.Index)}, cannot be read"
            );
    }

    /// <summary>Sets it anew.</summary>
    /// <param name="ledger">The log.</param>
    /// <param name="years">For how long.</param>
    /// <param name="why">Who answers for it, and why.</param>
    /// <param name="caller">Who asks, as acts name it.</param>
    public static FilingOutcome Set(OpenLedger ledger, Retention years, Correction why, string caller)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        ArgumentNullException.ThrowIfNull(years);
        ArgumentNullException.ThrowIfNull(why);
        if (
            years.Records is { } most
            && ((years.Assessments ?? int.MaxValue) > most || (years.Reports ?? int.MaxValue) > most)
        )
        {
            return new FilingOutcome.Refused(
                new(
                    "assessments or reports would be kept longer than the records that stand in them",
                    "as many years for them, or fewer"
                )
            );
        }

        return ledger.File(log =>
            LoggedActs.With(
                log,
                new FilingPlan.File(
                    [
                        new FilingPart.New(
                            new EntryDraft(
                                EntryKind.Retention,
                                Subject,
                                CanonicalForm.Of(RetentionFormat.Current.Write(years)).Bytes
                            )
                            {
                                Person = why.By,
                                Reason = why.Reason,
                            }
                        ),
                    ],
                    []
                ),
                [new(ledger.Now, AccountAct.RetentionSet, caller, Subject)]
            )
        );
    }
}
