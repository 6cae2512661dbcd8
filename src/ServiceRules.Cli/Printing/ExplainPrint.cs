using System.Globalization;
using ServiceRules.Application.Explaining;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;
using Spectre.Console;

namespace ServiceRules.Cli.Printing;

/// <summary>
/// Why a record was judged as it was: of each rule where it comes from, why it applies or not, and what its answer rests
/// on. Of many rules, those that hold nothing are told in a line for each subject.
/// </summary>
internal sealed class ExplainPrint(IAnsiConsole screen, Explained explained, bool inFull)
{
    private readonly ServiceRecord record = explained.Assessed.Record;

    public void Print()
    {
        var tasks = string.Join(", ", record.Tasks.Select(ReportWords.Of));
        var word = OutcomeWord(explained.Assessed.Assessment.Job.Disposition);
        screen.MarkedLine(
            $"[bold]{record.Id}[/]  machine {record.Machine.Id}  {record.Date:yyyy-MM-dd}  {tasks}: [bold]{word}[/]"
        );
        foreach (var rule in explained.Rules)
        {
            Rule(rule);
        }

        if (explained.Rules.Length > 1)
        {
            Totals();
        }
    }

    private void Rule(ExplainedRule rule)
    {
        var stated = rule.Standing;
        screen.WriteLine();
        screen.MarkedLine($"[bold]{stated.Rule.Id}[/]  {stated.Rule.Title}");
        Line(
            $"from pack {stated.Pack.Id} {stated.Pack.Version} ({Layer(stated.Pack.Layer)}): {Place(stated)}"
        );
        if (!rule.IsInForce)
        {
            Line($"not in force: the site does not name the jurisdiction `{stated.Pack.Id}`");
            return;
        }

        foreach (var replaced in rule.Replaces)
        {
            Line(
                $"takes the place of the same rule in pack {replaced.Below.Pack.Id} ({Place(replaced.Below)})"
            );
            Line(
                replaced.Tightened.IsEmpty
                    ? "  and says just the same"
                    : $"  and changes {PartChangeWords.Of(replaced.Tightened)}"
            );
        }

        if (inFull || rule.Subjects.Any(IsHeld))
        {
            Requirement(rule);
        }

        Waivers(rule);
        foreach (var alike in rule.Subjects.GroupBy(one => Answer(rule, one)))
        {
            Subjects(rule, [.. alike]);
        }
    }

    private void Requirement(ExplainedRule rule)
    {
        var stated = rule.Standing.Rule;
        Line(stated.Requirement);
        Line($"rests on {BasisWords.Of(stated.Basis)}");
        if (rule.Cites is { } cited)
        {
            var clauses = string.Join("; ", cited.Citations.Select(one => string.Join(", ", one.Clauses)));
            Line($"{cited.Title} asks for it: {clauses}");
        }

        var unproven = stated.Unproven switch
        {
            UnprovenPolicy.Advise => "is told, and holds nothing",
            UnprovenPolicy.SecondPerson => "holds, unless a second person lets it out",
            _ => "holds",
        };
        var breach = stated.Severity switch
        {
            Severity.Stop => "stops the job: someone could be hurt",
            Severity.Hold => "holds",
            _ => "is told, and holds nothing",
        };
        Line(
            $"a breach {breach}; what cannot be proven {(stated.Severity == Severity.Advise ? "is told" : unproven)}"
        );
    }

    private void Waivers(ExplainedRule rule)
    {
        foreach (var seen in rule.Waivers)
        {
            var waiver = seen.Waiver;
            var unit = waiver.Unit is { } one ? $" for unit {one}" : "";
            var now = seen.IsInForce ? "in force on this day" : "not in force on this day";
            Line(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"waiver by {waiver.By}{unit}, {waiver.From:yyyy-MM-dd} to {waiver.Until:yyyy-MM-dd}, {now}: {waiver.Reason} ({seen.File} {seen.Pointer})"
                )
            );
        }
    }

    /// <summary>Subjects that would read the same are told in one line.</summary>
    private string Answer(ExplainedRule rule, ExplainedSubject subject) =>
        subject.Finding?.Subject.Key ?? ReachWords.Of(rule.Standing.Rule, subject.Reach, record);

    private void Subjects(ExplainedRule rule, List<ExplainedSubject> alike)
    {
        var first = alike[0];
        var names = string.Join(", ", alike.Select(one => Name(one.Reach.Subject)));
        var parts = inFull ? ReachWords.Parts(rule.Standing.Rule, first.Reach, record).ToList() : [];
        Line(
            parts.Count == 0 ? $"{names}: {ReachWords.Of(rule.Standing.Rule, first.Reach, record)}"
            : first.Reach.Applies ? $"{names}: applies"
            : $"{names}: does not apply"
        );
        foreach (var part in parts)
        {
            Line($"    {part}");
        }

        if (first.Finding is { } finding)
        {
            Finding(rule, first, finding);
        }
    }

    private void Finding(ExplainedRule rule, ExplainedSubject subject, Finding finding)
    {
        var told = $"    {VerdictWord(finding)}{Effect(finding)}: {finding.Statement}";
        if (!inFull && !IsHeld(subject))
        {
            Line(told);
            return;
        }

        foreach (var limit in subject.Limits.SelectMany(one => LimitWords.Of(rule.Standing.Rule.Check, one)))
        {
            Line($"    held against: {limit}");
        }

        foreach (var gauge in EvidenceWords.Gauges(record, finding))
        {
            Line($"    by: {gauge}");
        }

        foreach (var pointer in finding.Evidence)
        {
            Line($"    seen: {EvidenceWords.Of(record, pointer)}");
        }

        var system = ReadingUnits.Of(record, finding);
        foreach (var comparison in finding.Comparisons)
        {
            Line($"    known: {ComparisonLine.Of(comparison, system)}");
        }

        foreach (var line in DecisionExplained.Of(rule.Standing.Rule, finding.Comparisons, system))
        {
            Line($"    {line}");
        }

        Line(told);
        foreach (var notice in finding.Notices)
        {
            Line($"    note: {notice}");
        }

        if (finding.LetOut is { } letOut)
        {
            Line($"    let out: {letOut}");
        }
    }

    private void Totals()
    {
        var subjects = explained
            .Rules.Where(rule => rule.IsInForce)
            .SelectMany(rule => rule.Subjects)
            .ToList();
        var applied = explained.Rules.Count(rule =>
            rule.IsInForce && rule.Subjects.Any(one => one.Reach.Applies)
        );
        screen.WriteLine();
        screen.TextLine(
            $"{ReportWords.Counted(explained.Rules.Length, "rule", "rules")}: {applied} apply here, "
                + $"{explained.Rules.Count(rule => !rule.IsInForce)} not in force; "
                + $"answers: {Count(Verdict.Met)} in, {Count(Verdict.NotMet)} out, {Count(Verdict.Unproven)} not proven, "
                + $"{Count(Verdict.NotApplicable)} with nothing to judge"
        );

        int Count(Verdict verdict) => subjects.Count(one => one.Finding?.Verdict == verdict);
    }

    private static bool IsHeld(ExplainedSubject subject) =>
        subject.Finding is { Verdict: Verdict.NotMet or Verdict.Unproven };

    private void Line(string text) => screen.TextLine("  " + text);

    private static string Place(StandingRule stated) => $"{stated.File} {stated.Pointer}";

    private static string Layer(PackLayer layer) =>
        layer switch
        {
            PackLayer.Base => "base",
            PackLayer.Jurisdiction => "jurisdiction",
            _ => "site",
        };

    private static string Name(Subject subject) =>
        subject switch
        {
            Subject.Unit unit => $"unit {unit.Id}",
            Subject.Set => "units together",
            Subject.Programme => "programme",
            _ => "job",
        };

    private static string VerdictWord(Finding finding) =>
        finding.Verdict switch
        {
            Verdict.Met => "in",
            Verdict.NotMet => "OUT",
            Verdict.Unproven => "NOT PROVEN",
            _ => "nothing to judge",
        };

    private static string Effect(Finding finding) =>
        finding.Effect switch
        {
            Domain.Verdicts.Effect.Stop => ", stops",
            Domain.Verdicts.Effect.Hold => ", holds",
            _ => "",
        };

    private static string OutcomeWord(Disposition disposition) =>
        disposition switch
        {
            Disposition.Release => "may go out",
            Disposition.Hold => "HOLD",
            _ => "STOP",
        };
}
