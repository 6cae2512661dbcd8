using ServiceRules.Application.Assessing;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>Makes leaves of drafts.</summary>
internal static class EntryWriting
{
    /// <exception cref="UnfitEntryException">It would not read back: a reason without a visible letter, for one.</exception>
    /// <param name="draft">What is to be appended.</param>
    /// <param name="index">Its place.</param>
    /// <param name="at">When.</param>
    /// <param name="pseudonymFor">The pseudonym that a person is named by.</param>
    public static FiledEntry Write(
        EntryDraft draft,
        long index,
        DateTimeOffset at,
        Func<string, string> pseudonymFor
    )
    {
        var entry = new LedgerEntry
        {
            Kind = draft.Kind,
            At = ToTheMillisecond(at),
            By = draft.Person is { } person ? pseudonymFor(person) : null,
            Sender = draft.Sender is { } sender
                ? new(sender.Name, sender.Person is { } behind ? pseudonymFor(behind) : null, sender.Place)
                : null,
            Subject = draft.Subject,
            Content = draft.Hash.ToString(),
            ContentBytes = draft.Content.Length,
            Of = draft.Of?.ToString(),
            Corrects = draft.Corrects,
            Reason = draft.Reason,
        };
        var written = LedgerEntryFormat.Current.Write(entry);
        return LedgerEntryFormat.Current.Read(written).TryGet(out _, out var problems)
            ? new FiledEntry(index, entry, CanonicalForm.Of(written).Bytes)
            : throw new UnfitEntryException(
                new(
                    string.Join("; ", problems.Told.Select(problem => $"{problem.Pointer}: {problem.What}")),
                    string.Join("; ", problems.Told.Select(problem => problem.Accepted))
                )
            );
    }

    private static DateTimeOffset ToTheMillisecond(DateTimeOffset at)
    {
        var utc = at.ToUniversalTime();
        return utc.AddTicks(-(utc.Ticks % TimeSpan.TicksPerMillisecond));
    }
}
