using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Packs;

/// <summary>
/// How a measured value is decided: one of four words, or an object where a multiple, a target risk, other bounds, a model
/// or equality at the limit is stated.
/// </summary>
internal static class DecisionShapes
{
    private const decimal LeastShare = 0.000001m;

    private static readonly JsonShape<RuleDecision> Word = Shape
        .Choice<DecisionWord>("How a measured value is decided, in a word.")
        .As(word => Named[(int)word], decision => (DecisionWord)Array.IndexOf(Named, decision));

    private static readonly ObjectShape<RuleDecision> Stated = Shape.Object<RuleDecision>(
        "decision",
        "How a measured value is decided, with what it hangs on.",
        o =>
        {
            var kind = o.Required(
                "kind",
                Shape.Choice<DecisionKind>("Kinds of decision."),
                "by a guard of a multiple of U, by a guard from a target risk, without a guard, or by probability",
                KindOf
            );
            var factor = o.Optional(
                "factor",
                Shape.Number(LeastShare, DecisionRule.Guarded.LargestFactor),
                "`guarded`: the multiple of the expanded uncertainty that guards each limit; left out: 1",
                d => (d.By as DecisionRule.Guarded)?.Factor
            );
            var risk = o.Optional(
                "risk",
                Shape.Number(LeastShare, 0.5m),
                "`guarded-to-risk`: the chance that what is just accepted is out, 0.02 for 2 %",
                d => (d.By as DecisionRule.GuardedToRisk)?.Risk.Value
            );
            var metFrom = o.Optional(
                "metFrom",
                Shape.Number(0, 1),
                "`probability`: met from this probability of conformance on; left out: 0.95",
                d => (d.By as DecisionRule.ByProbability)?.MetFrom.Value
            );
            var notMetUpTo = o.Optional(
                "notMetUpTo",
                Shape.Number(0, 1),
                "`probability`: not met up to this probability; left out: 0.05",
                d => (d.By as DecisionRule.ByProbability)?.NotMetUpTo.Value
            );
            var intervals = o.Optional(
                "intervals",
                Shape.Choice<IntervalModel>("What a rule takes to be so between two feelers."),
                "`probability`: `uniform` declares every value between two feelers equally likely; left out: none",
                d =>
                    d.By is DecisionRule.ByProbability { Intervals: not IntervalModel.None } bounds
                        ? bounds.Intervals
                        : null
            );
            var limitItself = o.Defaulted(
                "limitItself",
                Shape.Choice<LimitItself>("Whether a value exactly on a limit keeps it."),
                LimitItself.Permitted,
                "whether a value exactly on a limit keeps it",
                d => d.LimitItself
            );
            o.NeededFor(kind, ["guarded-to-risk"], risk);
            Belongs(o, factor, DecisionKind.Guarded);
            Belongs(o, risk, DecisionKind.GuardedToRisk);
            Belongs(o, metFrom, DecisionKind.Probability);
            Belongs(o, notMetUpTo, DecisionKind.Probability);
            o.Check(
                v => v.Get(intervals) is null || v.Get(kind) is DecisionKind.Probability,
                intervals,
                "this plays no part in this kind of decision",
                "`probability` as the kind, or this left out"
            );
            o.Check(
                v =>
                    (v.Get(metFrom) ?? DecisionRule.NinetyFiveToFive.MetFrom.Value)
                    > (v.Get(notMetUpTo) ?? DecisionRule.NinetyFiveToFive.NotMetUpTo.Value),
                metFrom,
                "what is met would begin no higher than where not met ends",
                "`metFrom` above `notMetUpTo`"
            );
            return v =>
                new(
                    v.Get(kind) switch
                    {
                        DecisionKind.Guarded => new DecisionRule.Guarded(v.Get(factor) ?? 1m),
                        DecisionKind.GuardedToRisk => new DecisionRule.GuardedToRisk(
                            Probability.Of(v.Get(risk)!.Value)
                        ),
                        DecisionKind.Simple => DecisionRule.Unguarded,
                        _ => new DecisionRule.ByProbability(
                            v.Get(metFrom) is { } from
                                ? Probability.Of(from)
                                : DecisionRule.NinetyFiveToFive.MetFrom,
                            v.Get(notMetUpTo) is { } upTo
                                ? Probability.Of(upTo)
                                : DecisionRule.NinetyFiveToFive.NotMetUpTo
                        )
                        {
                            Intervals = v.Get(intervals) ?? IntervalModel.None,
                        },
                    },
                    v.Get(limitItself)
                );

            void Belongs(ObjectMembers<RuleDecision> members, Slot<decimal?> member, DecisionKind to) =>
                members.Check(
                    v => v.Get(member) is null || v.Get(kind) == to,
                    member,
                    "this plays no part in this kind of decision",
                    $"`{Shape.WordOf(to.ToString(), '-')}` as the kind, or this left out"
                );
        }
    );

    /// <summary>A word, or an object.</summary>
    public static JsonShape<RuleDecision> Decision { get; } =
        Shape.Either(Word, Stated, decision => Named.Contains(decision));

    private static RuleDecision[] Named =>
        [RuleDecision.Guarded, RuleDecision.GuardedOneSided, RuleDecision.Simple, RuleDecision.Probability];

    private static DecisionKind KindOf(RuleDecision decision) =>
        decision.By switch
        {
            DecisionRule.Guarded => DecisionKind.Guarded,
            DecisionRule.GuardedToRisk => DecisionKind.GuardedToRisk,
            DecisionRule.Simple => DecisionKind.Simple,
            _ => DecisionKind.Probability,
        };

    private enum DecisionWord
    {
        /// <summary>Each limit is guarded by the whole expanded uncertainty.</summary>
        Guarded,

        /// <summary>Each limit is guarded by 0.825 of the expanded uncertainty.</summary>
        GuardedOneSided,

        /// <summary>The reading alone is held against the limits.</summary>
        Simple,

        /// <summary>Met from a chance of 95 % of being inside, not met up to 5 %.</summary>
        Probability,
    }

    private enum DecisionKind
    {
        /// <summary>Met inside each limit by `factor` times the expanded uncertainty.</summary>
        Guarded,

        /// <summary>Met so far inside each limit that the chance of being beyond it is at most `risk`.</summary>
        GuardedToRisk,

        /// <summary>Met inside the limits; the reading alone counts.</summary>
        Simple,

        /// <summary>Met from a chance of being inside of `metFrom`, not met up to `notMetUpTo`.</summary>
        Probability,
    }
}
