using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases;

/// <summary>
/// Runs the cases beside the rules: each fixture is judged as it stands, then each case's rule is held against what
/// the case promises.
/// </summary>
public sealed class TestRules
{
    // The engine keeps compiled rules by the digest of the packs; this engine sees one folder only.
    private static readonly AssessmentDigests NoDigests = new("", "", "");

    private readonly RuleEngine engine = new();
    private readonly LoadedRules rules;
    private readonly FixtureShelf shelf;
    private readonly Dictionary<string, RuleScope> scopes;

    private TestRules(LoadedRules rules)
    {
        this.rules = rules;
        shelf = new(rules.Folder);
        scopes = rules
            .Book.Packs.SelectMany(pack => pack.Rules)
            .GroupBy(rule => rule.Id.Text, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.Last().Scope, StringComparer.Ordinal);
    }

    /// <param name="rules">A folder that was loaded; whether it is sound is for its diagnostics to say.</param>
    /// <param name="rule">Identity text of the only rule to test; absent: all.</param>
    /// <param name="progress">Told the number of cases done.</param>
    public static RulesTested Run(LoadedRules rules, string? rule = null, IProgress<int>? progress = null)
    {
        ArgumentNullException.ThrowIfNull(rules);
        TestRules run = new(rules);
        List<CaseResult> results = [];
        foreach (PlacedCase promise in rules.Cases.Where(one => rule is null || one.Case.Rule == rule))
        {
            results.Add(run.Case(promise));
            progress?.Report(results.Count);
        }

        return new([.. results], [.. run.shelf.Taken.Select(run.AsItStands)]);
    }

    private CaseResult Case(PlacedCase promise)
    {
        var built = CaseBuilder.Build(
            shelf.Of(promise),
            promise.Case.Patch,
            promise.Case.Context,
            rules.Book,
            out string problem
        );
        if (built is not var (record, context))
        {
            return new(promise, CaseOutcome.CannotBeBuilt, null, problem);
        }

        if (!scopes.TryGetValue(promise.Case.Rule, out RuleScope scope))
        {
            return new(
                promise,
                CaseOutcome.CannotBeBuilt,
                null,
                $"there is no rule `{promise.Case.Rule}` in this folder"
            );
        }

        Subject subject = promise.Case.Subject ?? BuiltCase.SubjectOf(scope, record);
        BuiltCase ready = new(promise.Case, record, context, subject);
        Finding? finding = ready.In(Assess(record, context));
        return new(
            promise,
            ready.Outcome(finding),
            BuiltCase.VerdictOf(finding),
            finding?.Statement ?? $"the rule does not apply to `{subject.Key}`"
        )
        {
            FoundEffect = BuiltCase.EffectOf(finding),
            Built = ready,
            Finding = finding,
        };
    }

    private FixtureResult AsItStands(Fixture fixture)
    {
        if (CaseBuilder.Build(fixture, [], [], rules.Book, out string problem) is not var (record, context))
        {
            return new(fixture.Name, fixture.File, false, [problem]);
        }

        Assessment assessment = Assess(record, context);
        bool isReleased = FixtureResult.IsReleasedBy(assessment);
        IEnumerable<string> told = assessment
            .Findings.Where(finding => finding.Effect is Effect.Hold or Effect.Stop)
            .Select(finding => $"{finding.Rule} on {finding.Subject.Key}: {finding.Statement}");
        return new(fixture.Name, fixture.File, isReleased, isReleased ? [] : [.. told])
        {
            Built = (record, context),
        };
    }

    private Assessment Assess(ServiceRecord record, AssessmentContext context) =>
        engine.Assess(record, context, rules.Book, NoDigests);
}
