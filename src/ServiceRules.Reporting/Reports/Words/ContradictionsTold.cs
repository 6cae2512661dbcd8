using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>
/// Readings that contradict one another leave many rules open at once. They are told once, in the words of the first finding
/// that they leave open; the others refer to it.
/// </summary>
public sealed class ContradictionsTold
{
    private readonly Dictionary<string, string> titles = new(StringComparer.Ordinal);
    private readonly HashSet<string> notices = new(StringComparer.Ordinal);

    /// <summary>The statement of a finding, and whether it only refers to one that was told before.</summary>
    /// <param name="finding">The next finding that is told.</param>
    /// <param name="title">What its rule is called.</param>
    public (string Statement, bool IsReference) Of(Finding finding, string title)
    {
        if (
            finding
            is not {
                Verdict: Verdict.Unproven,
                Reason: FindingReason.Conflicting,
                Remedy: Remedy.ReadAgain again
            }
        )
        {
            return (finding.Statement, false);
        }

        var readings =
            $"{finding.Subject.Key} {again.Quantity} {string.Join(' ', again.Places.Select(Bare))}";
        if (titles.TryAdd(readings, title))
        {
            return (finding.Statement, false);
        }

        var subject = finding.Statement.Split(':', 2)[0];
        return ($"{subject}: open by the same readings as “{titles[readings]}”", true);
    }

    /// <summary>What else a finding has to tell, without what an earlier one that the same readings leave open has told.</summary>
    /// <param name="finding">The finding that is told.</param>
    public IEnumerable<string> NoticesOf(Finding finding) =>
        finding is { Verdict: Verdict.Unproven, Reason: FindingReason.Conflicting }
            ? finding.Notices.Where(notice => notices.Add($"{finding.Subject.Key} {notice}"))
            : finding.Notices;

    /// <summary>A gauging station is told by name with its distance, or by its distance alone.</summary>
    private static string Bare(string place) =>
        place.IndexOf(" (", StringComparison.Ordinal) is > 0 and var at && place.EndsWith(')')
            ? place[(at + 2)..^1]
            : place;
}
