using System.Globalization;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>Every rule that judged, how often it came out how, and what it rests on. Sources are told once, below.</summary>
internal sealed class BasisSection
{
    private readonly JobView _job;
    private readonly List<string> _sources = [];

    private BasisSection(JobView job) => _job = job;

    public static IEnumerable<Block> Of(JobView job) => new BasisSection(job).Blocks();

    private IEnumerable<Block> Blocks()
    {
        var groups = _job
            .Assessment.Findings.Where(Bears)
            .GroupBy(finding => finding.Rule, StringComparer.Ordinal)
            .OrderBy(group => group.Key, StringComparer.Ordinal)
            .ToList();
        if (groups.Count == 0)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "Rules that judged, and what each rests on", _job.Heading);
        var collapsed = groups.Where(group => IsShownDuty(group.Key, group)).ToList();
        List<Row> lines = [.. groups.Except(collapsed).Select(group => Line(group.Key, [.. group]))];
        if (collapsed.Count > 0)
        {
            lines.Add(Duties(collapsed.ConvertAll(group => _job.Rule(group.Key)!)));
        }
        yield return Columned.Of(lines, 3);
        if (_sources.Count > 0)
        {
            var told = _sources.Select(
                (source, index) => string.Create(CultureInfo.InvariantCulture, $"[{index + 1}] {source}")
            );
            yield return new Paragraph(string.Join("  ", told), Palette.TinyQuiet);
        }
    }

    /// <summary>Duties that are shown stand by name under safe work; here one line says what they rest on.</summary>
    private bool IsShownDuty(string id, IEnumerable<Finding> findings) =>
        _job.IsCountedDuty(id) && findings.All(finding => finding.Verdict == Verdict.Met);

    private Row Duties(List<Rule> rules) =>
        _job.MarkedLine(
            VerdictPrint.Of(Verdict.Met),
            new Span("Duties of safe work and checks of entries", Palette.TinyBold),
            new Span(string.Create(CultureInfo.InvariantCulture, $" ({rules.Count} rules)"), Palette.Tiny),
            new Span(
                $" · {string.Join(" ", rules.Select(rule => Told(rule.Basis)).Distinct(StringComparer.Ordinal))}",
                Palette.TinyQuiet
            )
        );

    /// <summary>What is in order with the site's programme says nothing of this job.</summary>
    private static bool Bears(Finding finding) =>
        finding.Verdict != Verdict.NotApplicable
        && !(finding is { Subject: Subject.Programme, Verdict: Verdict.Met });

    private Row Line(string id, IReadOnlyList<Finding> findings)
    {
        var rule = _job.Rule(id);
        var worst = findings.Select(finding => finding.Verdict).Order(VerdictOrder).First();
        return _job.MarkedLine(
            VerdictPrint.Of(worst),
            new Span(_job.Say(rule?.Title ?? id), Palette.TinyBold),
            new Span(Counts(findings), Palette.Tiny),
            // Full guarding is what every rule does unless it says otherwise.
            new Span(
                rule is null || rule.Decision == RuleDecision.Guarded
                    ? ""
                    : $" · {DecisionWords.Of(rule.Decision)}",
                Palette.Tiny
            ),
            new Span($" · {(rule is null ? "basis not at hand" : Told(rule.Basis))}", Palette.TinyQuiet)
        );
    }

    private static readonly Comparer<Verdict> VerdictOrder = Comparer<Verdict>.Create(
        (left, right) => Rank(left).CompareTo(Rank(right))
    );

    private static int Rank(Verdict verdict) =>
        verdict switch
        {
            Verdict.NotMet => 0,
            Verdict.Unproven => 1,
            _ => 2,
        };

    private static string Counts(IReadOnlyList<Finding> findings)
    {
        if (findings.Count == 1)
        {
            return "";
        }
        var counts = findings
            .GroupBy(finding => finding.Verdict)
            .OrderBy(group => Rank(group.Key))
            .Select(group => $"{group.Count()} {VerdictPrint.Of(group.Key).Word}");
        return $" ({string.Join(", ", counts)})";
    }

    private string Told(Basis basis)
    {
        var source = basis.Source ?? ReportWords.Of(basis.Kind);
        var index = _sources.IndexOf(source);
        if (index < 0)
        {
            index = _sources.Count;
            _sources.Add(source);
        }
        var kind =
            basis.Kind == BasisKind.Published || basis.Source is null ? "" : ReportWords.Of(basis.Kind) + " ";
        var clause = basis.Clause is null ? "" : $" {basis.Clause}";
        return string.Create(CultureInfo.InvariantCulture, $"{kind}[{index + 1}]{clause}");
    }
}
