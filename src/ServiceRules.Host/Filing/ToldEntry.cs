using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Host.Filing;

/// <summary>Where something stands in the log.</summary>
/// <param name="Index">The place, from 0.</param>
/// <param name="Kind">What it is about.</param>
/// <param name="At">When it was appended, by the clock of the service.</param>
/// <param name="Content">Digest of what was filed.</param>
/// <param name="By">Pseudonym of who answers for it.</param>
/// <param name="Reason">Why, of an amendment, and of an assessment in the light of another record.</param>
internal sealed record ToldEntry(
    long Index,
    EntryKind Kind,
    DateTimeOffset At,
    string Content,
    string? By,
    string? Reason
)
{
    public static ToldEntry Of(FiledEntry entry) =>
        new(
            entry.Index,
            entry.Entry.Kind,
            entry.Entry.At,
            entry.Entry.Content,
            entry.Entry.By,
            entry.Entry.Reason
        );
}
