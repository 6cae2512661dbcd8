using ServiceRules.Application.Explaining;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Printing;

/// <summary>
/// How the measured places of a finding were decided, told so that somebody can follow it: the decision rule with what it
/// hangs on, equality at the limit, the level, the lines, what each uncertainty is made of, the coarsest gauge that could
/// prove the limit, and one place worked through.
/// </summary>
internal static class DecisionExplained
{
    /// <param name="rule">The rule as it stands in force.</param>
    /// <param name="comparisons">What it compared.</param>
    /// <param name="otherwise">The units where a comparison does not say.</param>
    public static IEnumerable<string> Of(
        Rule rule,
        IReadOnlyCollection<Comparison> comparisons,
        UnitSystem otherwise
    )
    {
        var measured = comparisons.Where(comparison => comparison.Budget is not null).ToList();
        if (measured.Count == 0)
        {
            if (comparisons.Any(comparison => (comparison.KnownLower ?? comparison.KnownUpper) is not null))
            {
                yield return $"decided: {OfFeelers(rule.Decision)}";
            }

            yield break;
        }

        yield return $"decided: {DecisionWords.Of(rule.Decision)}";
        yield return $"    {Meaning(rule.Decision.By)}";
        yield return rule.Decision.LimitItself is LimitItself.Excluded
            ? "    a value exactly on a limit is out"
            : "    a value exactly on a limit keeps it";
        yield return $"    U at {StatedBudget.Level}, k from Student's t by the degrees of freedom: 2 where every contribution is taken as known";
        if (LinesOf(rule.Check, measured) is { } lines)
        {
            yield return $"    {lines}";
        }

        foreach (var budget in BudgetWords.Of(measured, otherwise))
        {
            yield return $"uncertainty at {budget}";
        }

        foreach (var needed in Needed(rule, measured, otherwise).Distinct(StringComparer.Ordinal))
        {
            yield return needed;
        }

        yield return $"worked: {Worked(rule.Decision.By, measured[0], measured[0].ToldIn ?? otherwise)}";
    }

    /// <summary>What feelers tell has no U: an interval, decided by its ends or by the share of it that lies inside.</summary>
    private static string OfFeelers(RuleDecision decision) =>
        decision.By is DecisionRule.ByProbability { Intervals: IntervalModel.Uniform }
            ? $"{DecisionWords.Of(decision)}; between two feelers every length is taken as equally likely, so that the chance is the share of what they leave that lies inside"
            : "in where all that the feelers leave lies inside the limits, out where none of it does, else not proven"
                + (decision.LimitItself is LimitItself.Excluded ? "; the limit itself is out" : "");

    private static string Meaning(DecisionRule by) =>
        by switch
        {
            DecisionRule.Guarded guarded =>
                $"in where it lies inside each limit by g = {BudgetWords.Factor(guarded.Factor)} x U, out where it lies beyond a limit by more than g, else not proven",
            DecisionRule.GuardedToRisk =>
                "in where it lies so far inside each limit that the chance of being beyond it is at most that risk, out where it lies as far beyond, else not proven",
            DecisionRule.Simple =>
                "in where it lies inside the limits, else out; U is told and plays no part",
            DecisionRule.ByProbability { Intervals: IntervalModel.Uniform } =>
                "between the two chances not proven; between two feelers every length is taken as equally likely",
            _ => "between the two chances not proven; of what feelers tell no chance is claimed",
        };

    private static string? LinesOf(Check check, List<Comparison> measured) =>
        check switch
        {
            Check.Parallelism { Datum: DatumMethod.MinimumZone } =>
                "line by least squares through the stations; what squaring cannot take out by the minimum zone",
            Check.Parallelism =>
                "line by least squares through the stations; what squaring cannot take out by the least-squares zone",
            Check.Spread or Check.ReelForm or Check.Twist => "line by least squares through the stations",
            _ when measured.Exists(one => one.IsAtEnd) =>
                "ends that were not read by the least-squares line through the stations",
            _ => null,
        };

    private static IEnumerable<string> Needed(Rule rule, List<Comparison> measured, UnitSystem otherwise) =>
        from comparison in measured
        let system = comparison.ToldIn ?? otherwise
        let fitness = GaugeNeeded.Of(rule, comparison)
        select fitness switch
        {
            null or { Outcome: GaugeFitnessOutcome.NotJudged } =>
                "coarsest gauge: not told, since the limit has one side and neither target nor bound",
            { CoarsestExpanded: { } coarsest } when coarsest > Length.Zero =>
                $"coarsest gauge that could prove {LengthPrint.Limits(comparison, system)}: U up to {UncertaintyPrint.AtMost(coarsest, system)}",
            { CoarsestExpanded: not null } =>
                $"coarsest gauge: none could prove {LengthPrint.Limits(comparison, system)}, since there is no room inside it",
            _ => "coarsest gauge: any, since U plays no part",
        };

    private static string Worked(DecisionRule by, Comparison place, UnitSystem system)
    {
        var unit = LengthPrint.Unit(system);
        var budget = place.Budget!;
        var (k, u) = budget.RestsOn is { } part
            ? (part.CoverageFactor, part.Combined)
            : (budget.CoverageFactor, budget.Combined);
        var expanded =
            $"at {place.Place} U = {BudgetWords.Factor(k)} x {BudgetWords.Figure(u.Value, system)} = {BudgetWords.Figure(budget.Expanded, system)} {unit}";
        var guard = place.AcceptLower - place.LowerLimit ?? place.UpperLimit - place.AcceptUpper;
        var zone = (place.AcceptLower, place.AcceptUpper) switch
        {
            ({ } lower, { } upper) => $"from {Exact(lower)} to {Exact(upper)} {unit}",
            ({ } lower, null) => $"from {Exact(lower)} {unit} up",
            (null, { } upper) => $"up to {Exact(upper)} {unit}",
            _ => null,
        };
        var read = place.Value is { } value ? $"{Exact(value)} {unit}" : "nothing";
        return by switch
        {
            DecisionRule.Guarded or DecisionRule.GuardedToRisk when zone is null =>
                $"{expanded}: the guard leaves no value that could be in",
            DecisionRule.Guarded or DecisionRule.GuardedToRisk =>
                $"{expanded}; g = {Exact(guard ?? Length.Zero)} {unit}; in {zone}; {read}: {Word(place.Verdict)}",
            DecisionRule.Simple => $"{expanded}; in {zone}; {read}: {Word(place.Verdict)}",
            _ =>
                $"{expanded}; {read} is in with a chance of {ChanceWords.In(place) ?? "nothing known"}: {Word(place.Verdict)}",
        };

        string Exact(Length length) => LengthPrint.Exact(length, system);
    }

    private static string Word(Verdict verdict) =>
        verdict switch
        {
            Verdict.Met => "in",
            Verdict.NotMet => "out",
            _ => "not proven",
        };
}
