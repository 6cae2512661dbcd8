using System.Collections.Immutable;
using ServiceRules.Application.RuleCases;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Formats.Cases;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>Tries how one rule comes out on changed fixtures, so that only cases that come out as they say are written.</summary>
/// <param name="book">All rules, the tried one among them.</param>
/// <param name="rule">The rule that is tried.</param>
internal sealed class CaseTrial(RuleBook book, Rule rule)
{
    // The engine keeps compiled rules by the digest of the packs; this engine sees one book only.
    private static readonly AssessmentDigests NoDigests = new("", "", "");

    private readonly RuleEngine engine = new();

    /// <summary>How it comes out, or nothing where the changed record is no record any more.</summary>
    public TriedCase? Of(Fixture fixture, ImmutableArray<PatchStep> patch)
    {
        if (CaseBuilder.Build(fixture, patch, [], book, out _) is not var (record, context))
        {
            return null;
        }

        var assessment = engine.Assess(record, context, book, NoDigests);
        var subject = BuiltCase.SubjectOf(rule.Scope, record);
        var finding = assessment.Findings.FirstOrDefault(one =>
            one.Rule == rule.Id.Text && one.Subject == subject
        );
        return new(
            BuiltCase.VerdictOf(finding),
            BuiltCase.EffectOf(finding),
            FixtureResult.IsReleasedBy(assessment)
        );
    }
}
