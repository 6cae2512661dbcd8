using ServiceRules.Application.Ledger;

namespace ServiceRules.Host.Filing;

/// <summary>One version of a record.</summary>
/// <param name="Entry">Where it stands, when it was filed, by whom and why.</param>
/// <param name="Sender">Who sent it; left out where no sign-in was checked.</param>
/// <param name="NotKept">Why its content is not there; left out where it is.</param>
/// <param name="Assessments">What judging it came to, the oldest first.</param>
/// <param name="Reports">Reports issued on it.</param>
internal sealed record ToldVersion(
    ToldEntry Entry,
    ToldSender? Sender,
    string? NotKept,
    IReadOnlyList<ToldEntry> Assessments,
    IReadOnlyList<ToldEntry> Reports
)
{
    public static ToldVersion Of(SubjectVersion version) =>
        new(
            ToldEntry.Of(version.Entry),
            ToldSender.Of(version),
            version.WhyNone,
            [.. version.Assessments.Select(judged => ToldEntry.Of(judged.Entry))],
            [.. version.Reports.Select(ToldEntry.Of)]
        );
}
