using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Ledger;

/// <summary>What is judged otherwise in a later assessment.</summary>
internal static class VerdictComparison
{
    public static ImmutableArray<VerdictChange> Between(Assessment old, Assessment now) =>
        [.. Dispositions(old, now), .. Findings(old, now)];

    private static IEnumerable<VerdictChange> Dispositions(Assessment old, Assessment now)
    {
        var (before, after) = (Outcomes(old), Outcomes(now));
        return before
            .Keys.Union(after.Keys)
            .Where(subject => before.GetValueOrDefault(subject) != after.GetValueOrDefault(subject))
            .Select(subject => new VerdictChange(
                subject,
                null,
                before.GetValueOrDefault(subject),
                after.GetValueOrDefault(subject),
                null
            ));
    }

    private static Dictionary<string, string> Outcomes(Assessment assessment)
    {
        var outcomes = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["job"] = Word(assessment.Job.Disposition),
            ["set"] = Word(assessment.Set.Disposition),
        };
        foreach (var unit in assessment.Units)
        {
            outcomes[$"unit/{unit.Unit}"] = Word(unit.Outcome.Disposition);
        }

        return outcomes;
    }

    private static IEnumerable<VerdictChange> Findings(Assessment old, Assessment now)
    {
        var before = old.Findings.ToLookup(Key);
        var after = now.Findings.ToLookup(Key);
        foreach (var key in before.Select(group => group.Key).Union(after.Select(group => group.Key)))
        {
            var (was, became) = (before[key].FirstOrDefault(), after[key].FirstOrDefault());
            if (was?.Verdict != became?.Verdict && (Applies(was) || Applies(became)))
            {
                yield return new(
                    key.Subject,
                    key.Rule,
                    was is null ? null : Word(was.Verdict),
                    became is null ? null : Word(became.Verdict),
                    (became ?? was)!.Statement
                );
            }
        }
    }

    // A rule that came or went and does not apply changes nothing.
    private static bool Applies(Finding? finding) =>
        finding is not null && finding.Verdict is not Verdict.NotApplicable;

    private static (string Subject, string Rule) Key(Finding finding) => (finding.Subject.Key, finding.Rule);

    private static string Word<T>(T word)
        where T : struct, Enum =>
        string.Concat(
            word.ToString()
                .Select(
                    (letter, at) =>
                        char.IsUpper(letter)
                            ? (at == 0 ? "" : " ") + char.ToLowerInvariant(letter)
                            : letter.ToString()
                )
        );
}
