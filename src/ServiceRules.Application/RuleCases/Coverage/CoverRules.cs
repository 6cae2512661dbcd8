using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Applying;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Layering;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases.Coverage;

/// <summary>
/// What the cases that came out as they say exercise: each verdict that a rule can give, each part of when it applies both
/// ways, both sides of each limit that a rule holds something against. Only the rule that a case promises counts: what other
/// rules say of the same record is promised by nobody.
/// </summary>
public sealed class CoverRules
{
    private readonly LoadedRules rules;
    private readonly ImmutableArray<ExercisedRule> exercised;

    private CoverRules(LoadedRules rules, RulesTested tested)
    {
        this.rules = rules;
        exercised =
        [
            .. tested
                .Cases.Where(result => result.Outcome is CaseOutcome.AsExpected)
                .Select(result => Exercised(result.Built!, result.Finding)),
        ];
    }

    /// <param name="rules">The folder.</param>
    /// <param name="tested">What its cases came to.</param>
    /// <param name="rule">Identity text of the only rule that was tested; absent: all, and the limits of the sheets.</param>
    public static RuleCoverage Of(LoadedRules rules, RulesTested tested, string? rule = null)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(tested);
        CoverRules cover = new(rules, tested);
        var judged = rules
            .Library.Packs.SelectMany(pack => pack.Rules)
            .Where(placed => rule is null || placed.Value.Id.Text == rule)
            .Where(placed => !OwnRules.IsReplaced(rules, placed.Value))
            .ToList();
        var limits = rule is null ? cover.Limits([.. judged.Select(placed => placed.Value)]) : [];
        return new(
            [
                .. judged
                    .SelectMany(placed => cover.Verdicts(placed).Concat(cover.Conditions(placed)))
                    .Concat(limits.Where(limit => limit.IsAsked).Select(limit => limit.Part))
                    .OrderBy(part => part.Place.File, StringComparer.Ordinal)
                    .ThenBy(part => part.Place.Line)
                    .ThenBy(part => part.Place.Column),
            ],
            [.. limits.Where(limit => !limit.IsAsked).Select(limit => limit.Part)]
        );
    }

    private ExercisedRule Exercised(BuiltCase built, Finding? finding)
    {
        var rule = RulesInForce
            .Of(rules.Book.Packs, built.Context.Jurisdictions)
            .FirstOrDefault(one => one.Id.Text == built.Promise.Rule);
        var frame = FrameBuilder.Build(built.Record, built.Context, rules.Book);
        var reach = rule is null
            ? null
            : SubjectReach.Of(rule, frame).FirstOrDefault(one => one.Subject == built.Subject);
        return new(rule, built, reach, finding);
    }

    private IEnumerable<CoveragePart> Verdicts(Placed<Rule> placed)
    {
        var rule = placed.Value;
        var can = ReachableVerdicts.Of(rule.Check);
        if (
            AskedParts
                .Of(rule.When)
                .Any(part => part is not AskedPart.OrRead && AskedParts.CanFail(rule.When, part, rules.Book))
        )
        {
            can = can.Add(Verdict.NotApplicable);
        }

        foreach (var verdict in can)
        {
            yield return new(
                CoverageKind.Verdict,
                rule.Id.Text,
                CoverageWords.Of(verdict),
                "",
                rules.PlaceOf(placed, "/check"),
                exercised.Count(one => ReferenceEquals(one.Rule, rule) && one.Built.Promise.Expect == verdict)
            );
        }
    }

    private IEnumerable<CoveragePart> Conditions(Placed<Rule> placed)
    {
        var rule = placed.Value;
        var own = exercised.Where(one => ReferenceEquals(one.Rule, rule)).ToList();
        foreach (var part in AskedParts.Of(rule.When))
        {
            var word = AskedParts.Word(part);
            var isWayIn = part is AskedPart.OrRead;
            var place = rules.PlaceOf(placed, $"/when/{word}");
            yield return new(
                CoverageKind.Condition,
                rule.Id.Text,
                word,
                CoverageWords.Holds,
                place,
                own.Count(one => one.Reach is { Applies: true } reach && !(isWayIn && reach.IsAskedByTasks))
            );
            if (!isWayIn && AskedParts.CanFail(rule.When, part, rules.Book))
            {
                yield return new(
                    CoverageKind.Condition,
                    rule.Id.Text,
                    word,
                    CoverageWords.KeepsOut,
                    place,
                    own.Count(one => one.IsKeptOutBy(part))
                );
            }
        }
    }

    private List<(bool IsAsked, CoveragePart Part)> Limits(ImmutableArray<Rule> judged)
    {
        List<(bool, CoveragePart)> limits = [];
        foreach (var placed in rules.Library.Sheets)
        {
            foreach (var limit in SheetLimit.Of(placed.Value))
            {
                var isAsked = judged.Any(rule =>
                    limit.IsAskedBy(rule.Check)
                    && (
                        rule.When.Sheets.IsEmpty
                        || rule.When.Sheets.Contains(placed.Value.Id.Text, StringComparer.Ordinal)
                    )
                );
                limits.AddRange(
                    LimitSide
                        .Of(limit)
                        .Select(side =>
                            (
                                isAsked,
                                new CoveragePart(
                                    CoverageKind.Limit,
                                    placed.Value.Id.Text,
                                    $"{FileWords.Of(limit.Limit.Quantity)} {FileWords.MemberOf(limit.Member)} {side.Print}",
                                    side.Words,
                                    rules.PlaceOf(placed, limit.Pointer),
                                    exercised.Count(one => side.IsShownBy(one, placed.Value))
                                )
                            )
                        )
                );
            }
        }

        return limits;
    }
}
