using System.Globalization;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Application.RuleCases.Coverage;
using ServiceRules.Application.RuleCases.Mutation;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>What the cases beside the rules came to, what they leave out and what they do not notice, in plain words.</summary>
internal static class TestedPrint
{
    public static void Cases(RulesTested tested, bool showAll, Session session)
    {
        foreach (var result in tested.Cases.Where(one => showAll || one.Outcome != CaseOutcome.AsExpected))
        {
            var promise = result.Case.Case;
            var word = result.Outcome switch
            {
                CaseOutcome.AsExpected => "as it says",
                CaseOutcome.OtherVerdict => $"OTHER: found {Word(result.Found)}",
                CaseOutcome.OtherEffect =>
                    $"OTHER EFFECT: promised {Word(promise.Effect)}, found {Word(result.FoundEffect)}",
                _ => "CANNOT BE BUILT",
            };
            session.Tell(
                $"{result.Case.File}{result.Case.Pointer}: {promise.Rule}, {promise.Name}: expects {Word(promise.Expect)}, {word}; {result.Told}"
            );
        }

        foreach (var fixture in tested.Fixtures.Where(one => !one.IsReleased))
        {
            session.Tell($"{fixture.File}: a fixture must come out released, and does not");
            foreach (var told in fixture.Told)
            {
                session.Tell($"  {told}");
            }
        }

        var other = tested.Cases.Count(one =>
            one.Outcome is CaseOutcome.OtherVerdict or CaseOutcome.OtherEffect
        );
        session.Tell(
            $"{ReportWords.Counted(tested.Cases.Length, "case", "cases")}: {tested.Cases.Count(one => one.Outcome == CaseOutcome.AsExpected)} as they say, "
                + $"{other} otherwise, "
                + $"{tested.Cases.Count(one => one.Outcome == CaseOutcome.CannotBeBuilt)} could not be built; "
                + $"{ReportWords.Counted(tested.Fixtures.Length, "fixture", "fixtures")}, "
                + $"{tested.Fixtures.Count(one => one.IsReleased)} released"
        );
    }

    public static void Coverage(RuleCoverage coverage, Session session)
    {
        foreach (var part in coverage.Missing)
        {
            session.Tell($"{At(part.Place)}: no case: {Said(part)}");
        }

        foreach (var limit in coverage.Idle.DistinctBy(part => (part.Place.File, part.Place.Pointer)))
        {
            session.Tell($"{At(limit.Place)}: no rule holds anything against {limit.Of} {limit.Part}");
        }

        var kinds = coverage
            .Parts.GroupBy(part => part.Kind)
            .OrderBy(kind => kind.Key)
            .Select(kind => $"{Plural(kind.Key)} {Share(kind.Count(part => part.Cases > 0), kind.Count())}");
        session.Tell($"covered: {string.Join("; ", kinds)}");
    }

    public static void Mutation(RulesMutated mutated, Session session)
    {
        foreach (var one in mutated.Tried)
        {
            switch (one.End)
            {
                case MutantEnd.Survived:
                    session.Tell($"{At(one.Mutant.Place)}: SURVIVED: {one.Mutant.Of}: {one.Mutant.What}");
                    break;
                case MutantEnd.Alike:
                    session.Tell(
                        $"{At(one.Mutant.Place)}: makes no difference: {one.Mutant.Of}: {one.Mutant.What}; {one.By}"
                    );
                    break;
            }
        }

        var caught = mutated.Count(MutantEnd.Caught);
        var lost = mutated.Count(MutantEnd.Survived);
        session.Tell(
            $"{ReportWords.Counted(mutated.Tried.Length, "change", "changes")} tried on the rules: "
                + $"{Share(caught, caught + lost)} caught by a case; {mutated.Count(MutantEnd.Refused)} refused by `rules check`, "
                + $"{mutated.Count(MutantEnd.Alike)} without a difference, {mutated.Count(MutantEnd.NotTried)} not tried"
        );
        foreach (var kind in mutated.Tried.GroupBy(one => one.Mutant.Kind).OrderBy(kind => kind.Key))
        {
            var told = kind.Count(one => one.End is MutantEnd.Caught);
            session.Tell(
                $"  {Plural(kind.Key)}: {Share(told, told + kind.Count(one => one.End is MutantEnd.Survived))}"
            );
        }
    }

    public static string Word(Verdict? verdict) =>
        verdict switch
        {
            Verdict.Met => "met",
            Verdict.NotMet => "not met",
            Verdict.Unproven => "unproven",
            Verdict.NotApplicable => "not applicable",
            _ => "nothing",
        };

    private static string Word(Effect? effect) =>
        effect?.ToString().ToLower(CultureInfo.InvariantCulture) ?? "nothing";

    private static string Said(CoveragePart part) =>
        part.Kind switch
        {
            CoverageKind.Verdict => $"{part.Of} comes out {part.Part}",
            CoverageKind.Condition => $"{part.Of}, when/{part.Part}: {part.Side}",
            _ => $"{part.Of}, {part.Part}: {part.Side}",
        };

    private static string Plural(CoverageKind kind) =>
        kind switch
        {
            CoverageKind.Verdict => "verdicts",
            CoverageKind.Condition => "conditions, both ways",
            _ => "limits, both sides",
        };

    private static string Plural(MutationKind kind) =>
        kind switch
        {
            MutationKind.LimitMoved => "limits moved",
            MutationKind.ConditionDropped => "conditions dropped",
            MutationKind.EffectSoftened => "effects softened",
            _ => "decisions loosened",
        };

    private static string Share(int of, int all) =>
        all == 0
            ? "0 of 0"
            : string.Create(CultureInfo.InvariantCulture, $"{of} of {all} ({100.0 * of / all:0.0} %)");

    private static string At(RulePlace place) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{place.File}:{place.Line}:{place.Column} {place.Pointer}"
        );
}
