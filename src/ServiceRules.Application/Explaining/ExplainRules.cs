using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Comparing;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Applying;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Layering;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Explaining;

/// <summary>
/// Tells of an assessment why each rule did or did not apply, where it comes from, and what its answer rests on. Judges
/// nothing anew: what applies is asked of the same conditions, and what came of it is taken from the assessment.
/// </summary>
/// <param name="loaded">Sound rules with their site.</param>
public sealed class ExplainRules(LoadedRules loaded)
{
    private readonly ILookup<string, StandingRule> statements = Statements(loaded.Library);

    /// <summary>Names that somebody may have meant who asked for a rule that is not there; may be empty.</summary>
    public ImmutableArray<string> Near(string rule)
    {
        ArgumentNullException.ThrowIfNull(rule);
        var names = statements.Select(one => one.Key).Order(StringComparer.Ordinal).ToList();
        return
        [
            .. new[] { NearestName.Of(rule, names) }
                .OfType<string>()
                .Concat(names.Where(name => name.Contains(rule, StringComparison.OrdinalIgnoreCase)))
                .Concat(
                    names.Where(name =>
                        name.Split('-').Any(word => rule.Split('-').Contains(word, StringComparer.Ordinal))
                    )
                )
                .Distinct(StringComparer.Ordinal)
                .Take(MostNear),
        ];
    }

    // As many as fit a line that is read.
    private const int MostNear = 5;

    /// <summary>Explains one rule, or all of them.</summary>
    /// <param name="assessed">The record and its assessment by these rules.</param>
    /// <param name="rule">The rule; null: every rule of every pack. Of one that is not there nothing is explained.</param>
    public Explained Explain(Assessed assessed, string? rule = null)
    {
        ArgumentNullException.ThrowIfNull(assessed);
        var frame = FrameBuilder.Build(assessed.Record, assessed.Context, assessed.Book);
        var inForce = RulesInForce
            .Of(assessed.Book.Packs, assessed.Context.Jurisdictions)
            .ToHashSet(ReferenceEqualityComparer.Instance);
        return new(
            assessed,
            [
                .. statements
                    .Where(stated =>
                        rule is null || string.Equals(stated.Key, rule, StringComparison.Ordinal)
                    )
                    .OrderBy(stated => stated.Key, StringComparer.Ordinal)
                    .Select(stated => Rule([.. stated], assessed, frame, inForce)),
            ]
        );
    }

    /// <summary>Every statement of a rule, from the lowest layer to the highest, as the layers take one another's place.</summary>
    private static ILookup<string, StandingRule> Statements(RuleLibrary library) =>
        library
            .Packs.OrderBy(placed => placed.Pack.Layer)
            .ThenBy(placed => placed.Pack.Id)
            .SelectMany(placed =>
                placed.Rules.Select(rule => new StandingRule(
                    rule.Value,
                    placed.Pack,
                    rule.File,
                    rule.Pointer
                ))
            )
            .ToLookup(stated => stated.Rule.Id.Text, StringComparer.Ordinal);

    private ExplainedRule Rule(
        ImmutableArray<StandingRule> stated,
        Assessed assessed,
        JobFrame frame,
        HashSet<object?> inForce
    )
    {
        var standing = stated.FirstOrDefault(one => inForce.Contains(one.Rule));
        var shown = standing ?? stated[^1];
        return new()
        {
            Standing = shown,
            IsInForce = standing is not null,
            Replaces = Replaces(stated, shown, assessed.Context.Jurisdictions),
            Subjects =
            [
                .. SubjectReach
                    .Of(shown.Rule, frame)
                    .Select(reach => new ExplainedSubject(
                        reach,
                        standing is null ? null : FindingOf(assessed, shown.Rule, reach.Subject),
                        Limits(shown.Rule, reach, assessed)
                    )),
            ],
            Waivers =
            [
                .. loaded
                    .Library.Waivers.Where(waiver =>
                        string.Equals(waiver.Value.Rule, shown.Rule.Id.Text, StringComparison.Ordinal)
                    )
                    .Select(waiver => new WaiverSeen(
                        waiver.Value,
                        waiver.Value.From <= assessed.Record.Date
                            && assessed.Record.Date <= waiver.Value.Until,
                        waiver.File,
                        waiver.Pointer
                    )),
            ],
            Cites = CitationsInForce.Of(
                assessed.Book.Packs,
                assessed.Context.Jurisdictions,
                shown.Rule.Id,
                assessed.Record.Date
            ),
        };
    }

    private static Finding? FindingOf(Assessed assessed, Rule rule, Subject subject) =>
        assessed.Assessment.Findings.FirstOrDefault(finding =>
            string.Equals(finding.Rule, rule.Id.Text, StringComparison.Ordinal) && finding.Subject == subject
        );

    private static ImmutableArray<ReplacedRule> Replaces(
        ImmutableArray<StandingRule> stated,
        StandingRule shown,
        ImmutableArray<string> jurisdictions
    )
    {
        var below = stated
            .TakeWhile(one => one != shown)
            .Where(one =>
                one.Pack.Layer != PackLayer.Jurisdiction
                || jurisdictions.Contains(one.Pack.Id.Text, StringComparer.Ordinal)
            )
            .ToList();
        return
        [
            .. below
                .Select(
                    (one, at) =>
                        new ReplacedRule(
                            one,
                            RuleDifference.Between(
                                one.Rule,
                                at + 1 < below.Count ? below[at + 1].Rule : shown.Rule
                            )
                        )
                )
                .Reverse(),
        ];
    }

    private ImmutableArray<LimitBehind> Limits(Rule rule, SubjectReach reach, Assessed assessed) =>
        reach.Applies && LimitBehind.QuantityOf(rule.Check) is { } quantity
            ?
            [
                .. reach
                    .Units.Where(unit => unit.Holds)
                    .DistinctBy(unit => unit.Unit.Sheet.Id)
                    .Select(unit => Limit(unit.Unit, quantity, assessed)),
            ]
            : [];

    private LimitBehind Limit(UnitFrame unit, MeasuredQuantity quantity, Assessed assessed)
    {
        var sheet = loaded.Library.Sheets.First(placed => ReferenceEquals(placed.Value, unit.Sheet));
        var at = unit.Sheet.Quantities.IndexOf(unit.Sheet.Of(quantity)!);
        return new(
            unit,
            quantity,
            unit.Sheet.Of(quantity),
            sheet.File,
            at < 0 ? "" : FormattableString.Invariant($"/quantities/{at}"),
            Target(unit, quantity, assessed)
        );
    }

    private TargetSeen? Target(UnitFrame unit, MeasuredQuantity quantity, Assessed assessed)
    {
        if (unit.Targets.FirstOrDefault(target => target.Quantity == quantity) is not { } target)
        {
            return null;
        }

        var asked = unit.Cards.LastOrDefault(card => card.IsTaken && card.Asked.Quantity == quantity);
        var order = asked is not null
            ? asked.Order
            : assessed
                .Context.SettingOrders.OrderByDescending(one => one.From)
                .ThenByDescending(one => one.Id)
                .FirstOrDefault(one => one.Targets.Contains(target));
        return new(
            target,
            asked,
            order,
            loaded.Library.Orders.FirstOrDefault(placed => ReferenceEquals(placed.Value, order))?.File
        );
    }
}
