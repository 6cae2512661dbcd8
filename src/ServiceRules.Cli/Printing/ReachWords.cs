using ServiceRules.Domain.Records;
using ServiceRules.Engine.Applying;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Printing;

/// <summary>Why a rule applies to a subject or does not, in words.</summary>
internal static class ReachWords
{
    /// <summary>In one line: what made it apply, or what is missing.</summary>
    public static string Of(Rule rule, SubjectReach reach, ServiceRecord record)
    {
        var ofJob = reach.OfJob.Select(one =>
            (one.Holds, ConditionWords.OfJob(one.Part, rule.When, reach, record))
        );
        if (reach.Applies)
        {
            var made = ofJob
                .Concat(
                    reach
                        .Units.First(unit => unit.Holds)
                        .Answers.Select(one => OfUnit(one, rule, reach.Units.First(unit => unit.Holds)))
                )
                .Select(one => Met(one.Item2))
                .ToList();
            return made.Count == 0
                ? "applies always"
                : $"applies: {string.Join("; ", made)}{Which(rule, reach)}";
        }

        var missing = ofJob.Where(one => !one.Holds).Select(one => Missing(one.Item2)).ToList();
        if (missing.Count > 0)
        {
            return $"does not apply: {string.Join("; ", missing)}";
        }

        return reach.Units.IsEmpty ? "does not apply: the record names no unit"
            : rule.Scope == RuleScope.Unit ? $"does not apply: {Lacks(rule, reach.Units[0])}"
            : $"does not apply: no one unit has all that is asked ({string.Join("; ", reach.Units.Select(unit => $"{unit.Unit.Work.Id}: {Lacks(rule, unit)}"))})";
    }

    /// <summary>Every part that is asked, each with what the record has and whether it holds.</summary>
    public static IEnumerable<string> Parts(Rule rule, SubjectReach reach, ServiceRecord record)
    {
        foreach (var one in reach.OfJob)
        {
            yield return Part(one.Holds, ConditionWords.OfJob(one.Part, rule.When, reach, record), "");
        }

        foreach (var unit in reach.Units)
        {
            var name = rule.Scope == RuleScope.Unit ? "" : $"unit {unit.Unit.Work.Id}: ";
            foreach (var one in unit.Answers)
            {
                yield return Part(one.Holds, ConditionWords.OfUnit(one.Part, rule.When, unit.Traits), name);
            }
        }
    }

    private static (bool Holds, ConditionWords) OfUnit(PartAnswer answer, Rule rule, UnitReach unit) =>
        (answer.Holds, ConditionWords.OfUnit(answer.Part, rule.When, unit.Traits));

    private static string Lacks(Rule rule, UnitReach unit) =>
        unit.Holds
            ? "all of it"
            : string.Join(
                "; ",
                unit.Answers.Where(one => !one.Holds)
                    .Select(one => Missing(ConditionWords.OfUnit(one.Part, rule.When, unit.Traits)))
            );

    private static string Which(Rule rule, SubjectReach reach) =>
        rule.Scope == RuleScope.Unit || reach.Units.All(unit => unit.Answers.IsEmpty)
            ? ""
            : $" (unit {string.Join(", ", reach.Units.Where(unit => unit.Holds).Select(unit => unit.Unit.Work.Id.Text))})";

    private static string Met(ConditionWords words) => $"{words.Asked}, {words.Here}";

    private static string Missing(ConditionWords words) => $"asks for {words.Asked}, {words.Here}";

    private static string Part(bool holds, ConditionWords words, string name) =>
        $"{(holds ? "yes" : "NO")}  {name}{words.Asked}; {words.Here}";
}
