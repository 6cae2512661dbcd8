using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Cases;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>A fixture on which a new rule is in, and a case for each verdict that it can give.</summary>
/// <param name="Fixture">The fixture.</param>
/// <param name="Cases">The cases, each tried.</param>
internal sealed record WrittenCases(Fixture Fixture, ImmutableArray<RuleCase> Cases)
{
    /// <summary>The first that works, or nothing with what was missing.</summary>
    /// <param name="rules">The folder with the rule in it.</param>
    /// <param name="fixtures">The fixtures of the folder.</param>
    /// <param name="rule">The rule.</param>
    /// <param name="quantity">What its check is about.</param>
    /// <param name="name">What the fixture will be called.</param>
    public static WrittenCases? Of(
        LoadedRules rules,
        IEnumerable<Fixture> fixtures,
        Rule rule,
        MeasuredQuantity quantity,
        string name,
        out string missing
    )
    {
        var trial = new CaseTrial(rules.Book, rule);
        missing = "no record that the folder has as a fixture may go out with the rule in force and met";
        foreach (var fixture in fixtures)
        {
            var fitted = FittedFixture
                .Of(fixture, rule, quantity, rules.Book)
                .FirstOrDefault(one => trial.Of(one, []) is { Verdict: Verdict.Met, IsReleased: true });
            if (fitted is null)
            {
                continue;
            }

            var cases = Promises(rules.Book, trial, fitted, rule, quantity, name, out var lacking);
            if (lacking.Count == 0)
            {
                return new(fitted, cases);
            }

            missing =
                $"no simple change of the fixture `{fixture.Name}` makes it come out {string.Join(" or ", lacking.Select(FileWord.Of))}";
        }

        return null;
    }

    private static ImmutableArray<RuleCase> Promises(
        RuleBook book,
        CaseTrial trial,
        Fixture fixture,
        Rule rule,
        MeasuredQuantity quantity,
        string name,
        out List<Verdict> lacking
    )
    {
        var sketches = new CaseSketches(fixture.Record, rule, quantity);
        var sheet = book.Sheets.FirstOrDefault(one =>
            one.Id.Text == (string?)fixture.Record["units"]![0]!["sheet"]
        );
        var tried = sketches
            .Spoilt(sheet)
            .Concat(sketches.Elsewhere())
            .Where(sketch => !sketch.Patch.IsEmpty)
            .Select(sketch => (Sketch: sketch, Came: trial.Of(fixture, sketch.Patch)))
            .Where(one => one.Came is not null)
            .ToList();
        var cases = ImmutableArray.CreateBuilder<RuleCase>();
        cases.Add(Case(rule, name, new("as it should be", []), Verdict.Met, null));
        lacking = [];
        foreach (var verdict in ReachableVerdicts.Of(rule.Check).Where(verdict => verdict is not Verdict.Met))
        {
            var found = tried.FirstOrDefault(one => one.Came!.Verdict == verdict);
            if (found.Sketch is null)
            {
                lacking.Add(verdict);
            }
            else
            {
                cases.Add(Case(rule, name, found.Sketch, verdict, found.Came!.Effect));
            }
        }

        // A rule that always applies has none, and need not.
        if (tried.FirstOrDefault(one => one.Came!.Verdict is Verdict.NotApplicable).Sketch is { } elsewhere)
        {
            cases.Add(Case(rule, name, elsewhere, Verdict.NotApplicable, null));
        }

        return cases.ToImmutable();
    }

    private static RuleCase Case(
        Rule rule,
        string fixture,
        CaseSketch sketch,
        Verdict verdict,
        Effect? effect
    ) =>
        new()
        {
            Rule = rule.Id.Text,
            Name = sketch.Name,
            Expect = verdict,
            Effect = effect,
            From = fixture,
            Patch = sketch.Patch,
        };
}
