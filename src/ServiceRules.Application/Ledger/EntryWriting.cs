using ServiceRules.Application.Assessing;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>Makes leaves of drafts.</summary>
internal static class EntryWriting
{
    /// <exception cref="UnfitEntryException">It would not read back: a reason without a visible letter, for one.</exception>
    public static FiledEntry Write(EntryDraft draft, long index, DateTimeOffset at, string? pseudonym)
    {
        var entry = new LedgerEntry
        {
            Kind = draft.Kind,
            At = ToTheMillisecond(at),
            By = pseudonym,
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
