using ServiceRules.Application.Assessing;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>Makes leaves of drafts.</summary>
internal static class EntryWriting
{
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
        return new FiledEntry(
            index,
            entry,
            CanonicalForm.Of(LedgerEntryFormat.Current.Write(entry)).Bytes
        );
    }

    private static DateTimeOffset ToTheMillisecond(DateTimeOffset at)
    {
        var utc = at.ToUniversalTime();
        return utc.AddTicks(-(utc.Ticks % TimeSpan.TicksPerMillisecond));
    }
}
