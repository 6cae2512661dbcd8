using System.Collections.Immutable;
using ServiceRules.Application.Comparing;
using ServiceRules.Application.RuleCases.Coverage;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Engine.Applying;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Layering;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>
/// A case with the few rules that its verdict can hang on: the one it promises, and those that can show a reading stale.
/// What a rule says and does depends on no other.
/// </summary>
internal sealed class CaseBench
{
    private static readonly AssessmentDigests Digests = new("", "", "");

    private readonly RuleBook book;
    private readonly JobFrame frame;

    public CaseBench(CaseResult result, RuleBook book)
    {
        this.book = book;
        Result = result;
        Built = result.Built!;
        var inForce = RulesInForce.Of(book.Packs, Built.Context.Jurisdictions);
        Rule = inForce.FirstOrDefault(rule => rule.Id.Text == Built.Promise.Rule);
        Rules = [.. inForce.Where(rule => ReferenceEquals(rule, Rule) || rule.Check is Check.Freshness)];
        Sheets = [.. Built.Record.Units.Select(unit => unit.Sheet)];
        frame = FrameBuilder.Build(Built.Record, Built.Context, book);
    }

    public CaseResult Result { get; }

    public BuiltCase Built { get; }

    /// <summary>The promised rule; null when none of that identity is in force.</summary>
    public Rule? Rule { get; }

    /// <summary>The rules that the verdict can hang on.</summary>
    public ImmutableArray<Rule> Rules { get; }

    /// <summary>The sheets that the record names.</summary>
    public ImmutableHashSet<string> Sheets { get; }

    /// <summary>Whether the promised rule would apply if only this part were not asked.</summary>
    public bool IsKeptOutBy(AskedPart part) =>
        Rule is not null
        && new ExercisedRule(
            Rule,
            Built,
            SubjectReach.Of(Rule, frame).FirstOrDefault(one => one.Subject == Built.Subject),
            null
        ).IsKeptOutBy(part);

    /// <summary>What the case comes to with one rule changed.</summary>
    /// <param name="was">The rule.</param>
    /// <param name="changed">The rule as changed.</param>
    /// <param name="engine">An engine that has judged by no other change.</param>
    public Finding? With(Rule was, Rule changed, RuleEngine engine) =>
        Built.In(
            engine.Assess(
                frame with
                {
                    Book = RuleMixture.Book(
                        book,
                        Rules.Select(rule => ReferenceEquals(rule, was) ? changed : rule)
                    ),
                },
                Digests with
                {
                    Packs = Built.Promise.Rule,
                }
            )
        );

    /// <summary>What the case comes to with one sheet changed.</summary>
    /// <param name="changed">The sheet.</param>
    /// <param name="engine">An engine for these rules only.</param>
    public Finding? With(LimitSheet changed, RuleEngine engine)
    {
        var mixed = RuleMixture.Book(book, Rules) with { Sheets = ChangedSheets.In(book, changed) };
        return Built.In(engine.Assess(Built.Record, Built.Context, mixed, Digests));
    }

    public static ImmutableArray<CaseBench> Of(RulesTested tested, RuleBook book) =>
        [.. tested.Cases.Select(result => new CaseBench(result, book))];
}
