using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>What is said for an exemption from the steps of making safe.</summary>
internal static class ClaimShapes
{
    private static readonly ObjectShape<UndocumentedFacts> Facts = Shape.Object<UndocumentedFacts>(
        "undocumented-facts",
        "The eight answers without which a machine needs a written procedure.",
        o =>
        {
            var stored = o.Required(
                "noStoredEnergy",
                Shape.Flag,
                "no energy stays stored or can build up again",
                f => f.NoStoredEnergy
            );
            var source = o.Required("oneSource", Shape.Flag, "there is one source", f => f.OneSource);
            var dead = o.Required(
                "fullyDeenergised",
                Shape.Flag,
                "isolating it leaves the machine entirely dead",
                f => f.FullyDeenergised
            );
            var locked = o.Required(
                "lockedForWork",
                Shape.Flag,
                "it is isolated and locked while work goes on",
                f => f.LockedForWork
            );
            var one = o.Required("oneLock", Shape.Flag, "one lock is enough", f => f.OneLock);
            var exclusive = o.Required(
                "exclusiveControl",
                Shape.Flag,
                "whoever works alone controls that lock",
                f => f.ExclusiveControl
            );
            var others = o.Required(
                "noHazardToOthers",
                Shape.Flag,
                "the work endangers nobody else",
                f => f.NoHazardToOthers
            );
            var accident = o.Required(
                "noPastAccident",
                Shape.Flag,
                "no accident by unexpected energy is known with this machine",
                f => f.NoPastAccident
            );
            return v => new UndocumentedFacts(
                v.Get(stored),
                v.Get(source),
                v.Get(dead),
                v.Get(locked),
                v.Get(one),
                v.Get(exclusive),
                v.Get(others),
                v.Get(accident)
            );
        }
    );

    public static ObjectShape<ExemptionClaim> Claim { get; } =
        Shape.Object<ExemptionClaim>(
            "exemption-claim",
            "What is said for an exemption; what is not said does not count in its favour.",
            o =>
            {
                var kind = o.Required(
                    "kind",
                    Shape.Choice<ExemptionKind>("Why the steps of making safe need not all be taken."),
                    "which exemption",
                    c => c.Kind
                );
                var routine = o.Optional("routine", Shape.Flag, "the task is routine", c => c.Routine);
                var repetitive = o.Optional(
                    "repetitive",
                    Shape.Flag,
                    "the task comes again and again",
                    c => c.Repetitive
                );
                var integral = o.Optional(
                    "integral",
                    Shape.Flag,
                    "the task is part of using the machine",
                    c => c.Integral
                );
                var facts = o.Optional(
                    "facts",
                    Facts,
                    "the eight answers that a machine without a written procedure needs",
                    c => c.Facts
                );
                var decided = o.Optional(
                    "decidedBy",
                    RecordNames.KnownPerson,
                    "who decided it",
                    c => c.DecidedBy
                );
                var ground = o.Optional("ground", Terms.Sentence, "on what ground", c => c.Ground);
                return v => new ExemptionClaim(
                    v.Get(kind),
                    v.Get(routine),
                    v.Get(repetitive),
                    v.Get(integral),
                    v.Get(facts),
                    v.Get(decided),
                    v.Get(ground)
                );
            }
        );
}
