using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Sheets;

/// <summary>What can be turned on a kind of unit, and what turning it disturbs.</summary>
internal static class AdjusterShapes
{
    private static readonly ObjectShape<Disturbance> DisturbanceObject = Shape.Object<Disturbance>(
        "disturbance",
        "What one adjuster does to another quantity.",
        o =>
        {
            var quantity = o.Required(
                "quantity",
                Choices.Quantity,
                "the quantity disturbed",
                d => d.Quantity
            );
            var shift = o.Optional(
                "shiftPerStep",
                SharedShapes.PrintedSize,
                "largest shift either way by one step; left out: any turn makes readings stale",
                d => d.ShiftPerStep
            );
            var stale = o.Optional(
                "staleAfterSteps",
                Shape.Whole(0, 1_000),
                "more steps than this make readings stale",
                d => d.StaleAfterSteps
            );
            o.Needs(stale, shift);
            return v => new Disturbance(v.Get(quantity), v.Get(shift), v.Get(stale));
        }
    );

    private static readonly ObjectShape<AdjusterThread> ThreadObject = Shape.Object<AdjusterThread>(
        "thread",
        "The screw of an adjuster.",
        o =>
        {
            var pitch = o.Required(
                "pitch",
                Terms.Length.AsParsed(
                    pitch =>
                        Terms.Kept(
                            pitch,
                            pitch.Value > Length.Zero,
                            "this is not a pitch",
                            "a length of more than nothing"
                        ),
                    pitch => pitch
                ),
                "advance of the screw by one turn",
                t => t.Pitch
            );
            var ratio = o.Optional(
                "ratio",
                Shape.Number(0.001m, 100m),
                "change of the quantity per advance of the screw; left out: to be learned from two settings",
                t => t.Ratio
            );
            var parts = o.Required(
                "parts",
                Shape.Whole(1, 360),
                "into how many parts a turn is told apart",
                t => t.Parts
            );
            return v => new AdjusterThread(v.Get(pitch), v.Get(ratio), v.Get(parts));
        }
    );

    public static ObjectShape<Adjuster> Adjuster { get; } =
        Shape.Object<Adjuster>(
            "adjuster",
            "Something that can be turned.",
            o =>
            {
                var kind = o.Required("adjuster", Choices.Adjuster, "which", a => a.Kind);
                var step = o.Optional(
                    "step",
                    SharedShapes.PrintedSize,
                    "change of its own quantity, at the adjuster, by one step; left out: not stepped",
                    a => a.Step
                );
                var thread = o.Optional(
                    "thread",
                    ThreadObject,
                    "its screw, from which a distance is told as turns",
                    a => a.Thread
                );
                var left = o.Optional(
                    "leftAt",
                    Terms.Length,
                    "distance of the left adjuster from the left end; negative outside it",
                    a => a.LeftAt
                );
                var right = o.Optional(
                    "rightAt",
                    Terms.Length,
                    "distance of the right adjuster from the left end",
                    a => a.RightAt
                );
                var finish = o.Defaulted(
                    "finish",
                    Shape.Choice<FinishDirection>("The last movement of each side."),
                    FinishDirection.Either,
                    "in which direction an adjustment is finished",
                    a => a.Finish
                );
                var disturbs = o.Items(
                    "disturbs",
                    DisturbanceObject,
                    FormatLimits.Words,
                    "what it disturbs, besides its own quantity",
                    a => a.Disturbs
                );
                o.Check(
                    v => v.Get(step) is null || v.Get(thread) is null,
                    thread,
                    "the adjuster has a step as well",
                    "`thread` for a screw, or `step` for an adjuster that turns in steps"
                );
                o.Needs(left, right);
                o.Needs(right, left);
                o.Check(
                    v => v.Get(left) is not { } from || v.Get(right) is not { } to || from.Value < to.Value,
                    right,
                    "the right adjuster stands left of the left one",
                    "more than `leftAt`"
                );
                return v => new Adjuster
                {
                    Kind = v.Get(kind),
                    Step = v.Get(step),
                    Thread = v.Get(thread),
                    LeftAt = v.Get(left),
                    RightAt = v.Get(right),
                    Finish = v.Get(finish),
                    Disturbs = v.Get(disturbs),
                };
            }
        );
}
