using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Assessments;

/// <summary>What to do about a finding, told apart by its `kind`.</summary>
internal static class RemedyShapes
{
    private const int MostSteps = 1_000;
    private const int MostParts = 1_000_000;

    private static readonly JsonShape<ImmutableArray<MeasuredQuantity>> Quantities = Shape.List(
        Choices.Quantity,
        0,
        FormatLimits.Words
    );

    private static readonly ObjectShape<SingleStep> StepObject = Shape.Object<SingleStep>(
        "single-step",
        "One turn of one adjuster by one step.",
        o =>
        {
            var side = o.Required("side", Choices.Side, "which side", s => s.Side);
            var opens = o.Required("opens", Shape.Flag, "whether it opens, or raises", s => s.Opens);
            return v => new SingleStep(v.Get(side), v.Get(opens));
        }
    );

    private static readonly ObjectShape<PredictedGap> PredictionObject = Shape.Object<PredictedGap>(
        "predicted-gap",
        "A predicted value at a place.",
        o =>
        {
            var place = o.Required("place", Terms.Title, "where", p => p.Place);
            var before = o.Required("before", Terms.ExactLength, "as it is", p => p.Before);
            var after = o.Required("after", Terms.ExactLength, "as it will be", p => p.After);
            var doubtBefore = o.Optional(
                "beforeDoubt",
                Terms.ExactLength,
                "how far the one as it is may be off either way",
                p => p.BeforeDoubt
            );
            var doubtAfter = o.Optional(
                "afterDoubt",
                Terms.ExactLength,
                "how far the one as it will be may be off either way: readings, steps and lever together",
                p => p.AfterDoubt
            );
            return v => new PredictedGap(v.Get(place), v.Get(before), v.Get(after))
            {
                BeforeDoubt = v.Get(doubtBefore),
                AfterDoubt = v.Get(doubtAfter),
            };
        }
    );

    private static readonly ObjectShape<HeightTurns> TurnsObject = Shape.Object<HeightTurns>(
        "height-turns",
        "How far to turn a screw.",
        o =>
        {
            var parts = o.Required(
                "parts",
                Shape.Whole(-MostParts, MostParts),
                "signed parts of a turn; positive raises or opens",
                t => t.Parts
            );
            var per = o.Required(
                "perTurn",
                Shape.Whole(1, 360),
                "parts in a whole turn",
                t => t.PartsPerTurn
            );
            var gives = o.Required(
                "gives",
                Terms.ExactLength,
                "the change that this gives",
                t => t.Predicted
            );
            return v => new HeightTurns(v.Get(parts), v.Get(per), v.Get(gives));
        }
    );

    private const string LearnedPart =
        "what one part of a turn really obtains, where readings told it and the turns are counted with it";

    private static readonly ObjectShape<NearestTurn> NearestObject = Shape.Object<NearestTurn>(
        "nearest-turn",
        "The whole steps that come nearest where none land every place inside; not a remedy.",
        o =>
        {
            var adjuster = o.Required("adjuster", Choices.Adjuster, "what would be turned", n => n.Adjuster);
            var left = o.Required(
                "leftSteps",
                Shape.Whole(-MostSteps, MostSteps),
                "signed steps on the left",
                n => n.LeftSteps
            );
            var right = o.Required(
                "rightSteps",
                Shape.Whole(-MostSteps, MostSteps),
                "signed steps on the right",
                n => n.RightSteps
            );
            var place = o.Required("place", Terms.Title, "the place that would miss by most", n => n.Place);
            var excess = o.Required("excess", Terms.ExactLength, "by how much", n => n.Excess);
            var above = o.Required(
                "above",
                Shape.Flag,
                "whether it would be above the limits",
                n => n.IsAbove
            );
            var doubt = o.Optional(
                "doubt",
                Terms.ExactLength,
                "how far that may be off either way",
                n => n.Doubt
            );
            var also = o.Items(
                "also",
                Terms.Title,
                FormatLimits.Evidence,
                "the other places that would miss, by no more",
                n => n.Also
            );
            var other = o.Defaulted(
                "byOtherPrint",
                Shape.Flag,
                false,
                "whether it misses only by the print that the readings are not held against",
                n => n.IsByOtherPrint
            );
            return v => new NearestTurn(
                v.Get(adjuster),
                v.Get(left),
                v.Get(right),
                v.Get(place),
                v.Get(excess),
                v.Get(above)
            )
            {
                Doubt = v.Get(doubt),
                Also = v.Get(also),
                IsByOtherPrint = v.Get(other),
            };
        }
    );

    private static readonly ObjectShape<UnitMove> UnitMoveObject = Shape.Object<UnitMove>(
        "unit-move",
        "How far to move one unit of a machine: positive raises.",
        o =>
        {
            var unit = o.Required("unit", Terms.Title, "which unit", m => m.Unit);
            var left = o.Required("left", Terms.ExactLength, "how far on the left", m => m.Left);
            var right = o.Required("right", Terms.ExactLength, "how far on the right", m => m.Right);
            var leftTurns = o.Optional("leftTurns", TurnsObject, "the same in turns", m => m.LeftTurns);
            var rightTurns = o.Optional("rightTurns", TurnsObject, "the same in turns", m => m.RightTurns);
            var learned = o.Optional("learnedPart", Terms.ExactLength, LearnedPart, m => m.LearnedPart);
            return v => new UnitMove(v.Get(unit), v.Get(left), v.Get(right))
            {
                LeftTurns = v.Get(leftTurns),
                RightTurns = v.Get(rightTurns),
                LearnedPart = v.Get(learned),
            };
        }
    );

    public static JsonShape<Remedy> Remedy { get; } =
        Shape.Variant(
            "remedy",
            "What to do about a finding.",
            "kind",
            Shape.Case<Remedy, Remedy.Turn>("turn", Turn()),
            Shape.Case<Remedy, Remedy.OpenUntilFree>("open-until-free", OpenUntilFree()),
            Shape.Case<Remedy, Remedy.Move>("move", Move()),
            Shape.Case<Remedy, Remedy.MoveUnits>("move-units", MoveUnits()),
            Shape.Case<Remedy, Remedy.ReadAgain>("read-again", ReadAgain()),
            Shape.Case<Remedy, Remedy.CannotBeTurnedIn>("cannot-be-turned-in", CannotBeTurnedIn()),
            Shape.Case<Remedy, Remedy.Act>("act", Act())
        );

    private static ObjectShape<Remedy.Turn> Turn() =>
        Shape.Object<Remedy.Turn>(
            "turn",
            "Turn an adjuster by whole steps: positive opens or raises, negative closes or lowers.",
            o =>
            {
                var adjuster = o.Required("adjuster", Choices.Adjuster, "what to turn", r => r.Adjuster);
                var left = o.Required(
                    "leftSteps",
                    Shape.Whole(-MostSteps, MostSteps),
                    "signed steps on the left",
                    r => r.LeftSteps
                );
                var right = o.Required(
                    "rightSteps",
                    Shape.Whole(-MostSteps, MostSteps),
                    "signed steps on the right",
                    r => r.RightSteps
                );
                var sequence = o.Items(
                    "sequence",
                    StepObject,
                    2 * MostSteps,
                    "one step at a time, in the order to turn them",
                    r => r.Sequence
                );
                var predicted = o.Items(
                    "predicted",
                    PredictionObject,
                    FormatLimits.Evidence,
                    "what will result, by place from the left",
                    r => r.Predicted
                );
                var again = o.Required(
                    "again",
                    Quantities,
                    "what must be read again afterwards",
                    r => r.Again
                );
                var learned = o.Optional(
                    "learnedStep",
                    Terms.ExactLength,
                    "what a step really obtains, where readings proved it to be other than the sheet says",
                    r => r.LearnedStep
                );
                var learnedDoubt = o.Optional(
                    "learnedStepDoubt",
                    Terms.ExactLength,
                    "how far that step may be off either way",
                    r => r.LearnedStepDoubt
                );
                var readAfter = o.Optional(
                    "readAfter",
                    Shape.Whole(0, 2 * MostSteps),
                    "after how many single steps to read before the next, since it could touch where the sheet's step is obtained again",
                    r => r.ReadAfter
                );
                var least = o.Defaulted(
                    "least",
                    Shape.Flag,
                    false,
                    "whether it is counted from the least that the feelers leave, so that nothing touches on the way",
                    r => r.IsLeast
                );
                var side = o.Optional(
                    "learnedSide",
                    Choices.Side,
                    "the side alone that this step was learned on; left out: both",
                    r => r.LearnedSide
                );
                var stillOut = o.Items(
                    "stillOut",
                    PredictionObject,
                    FormatLimits.Evidence,
                    "what by the readings will still lie outside, where only a part of the way is told",
                    r => r.StillOut
                );
                var binds = o.Optional(
                    "binds",
                    Terms.Sentence,
                    "what keeps a part of the way from being all of it",
                    r => r.Binds
                );
                return v =>
                    new(
                        v.Get(adjuster),
                        v.Get(left),
                        v.Get(right),
                        v.Get(sequence),
                        v.Get(predicted),
                        v.Get(again)
                    )
                    {
                        LearnedStep = v.Get(learned),
                        LearnedStepDoubt = v.Get(learnedDoubt),
                        LearnedSide = v.Get(side),
                        StillOut = v.Get(stillOut),
                        Binds = v.Get(binds),
                        ReadAfter = v.Get(readAfter),
                        IsLeast = v.Get(least),
                    };
            }
        );

    private static ObjectShape<Remedy.OpenUntilFree> OpenUntilFree() =>
        Shape.Object<Remedy.OpenUntilFree>(
            "open-until-free",
            "From contact of unknown depth: open until it just frees at both ends, then open this many more.",
            o =>
            {
                var adjuster = o.Required("adjuster", Choices.Adjuster, "what to turn", r => r.Adjuster);
                var then = o.Required(
                    "thenOpen",
                    Shape.Whole(0, MostSteps),
                    "how many more steps",
                    r => r.ThenOpen
                );
                var again = o.Required(
                    "again",
                    Quantities,
                    "what must be read again afterwards",
                    r => r.Again
                );
                return v => new(v.Get(adjuster), v.Get(then), v.Get(again));
            }
        );

    private static ObjectShape<Remedy.Move> Move() =>
        Shape.Object<Remedy.Move>(
            "move",
            "Move a setting by a distance: positive raises or opens.",
            o =>
            {
                var adjuster = o.Required("adjuster", Choices.Adjuster, "what to move", r => r.Adjuster);
                var left = o.Required("left", Terms.ExactLength, "how far on the left", r => r.Left);
                var right = o.Required("right", Terms.ExactLength, "how far on the right", r => r.Right);
                var again = o.Required(
                    "again",
                    Quantities,
                    "what must be read again afterwards",
                    r => r.Again
                );
                var leftTurns = o.Optional("leftTurns", TurnsObject, "the left in turns", r => r.LeftTurns);
                var rightTurns = o.Optional(
                    "rightTurns",
                    TurnsObject,
                    "the right in turns",
                    r => r.RightTurns
                );
                var learned = o.Optional("learnedPart", Terms.ExactLength, LearnedPart, r => r.LearnedPart);
                return v =>
                    new(v.Get(adjuster), v.Get(left), v.Get(right), v.Get(again))
                    {
                        LeftTurns = v.Get(leftTurns),
                        RightTurns = v.Get(rightTurns),
                        LearnedPart = v.Get(learned),
                    };
            }
        );

    private static ObjectShape<Remedy.MoveUnits> MoveUnits() =>
        Shape.Object<Remedy.MoveUnits>(
            "move-units",
            "Bring the units of a machine together: the fewest are moved, the others stay.",
            o =>
            {
                var adjuster = o.Required("adjuster", Choices.Adjuster, "what to move", r => r.Adjuster);
                var moves = o.Items(
                    "moves",
                    UnitMoveObject,
                    FormatLimits.Evidence,
                    "which units, and how far",
                    r => r.Moves
                );
                var stay = o.Items("stay", Terms.Title, FormatLimits.Evidence, "which stay", r => r.Stay);
                return v => new(v.Get(adjuster), v.Get(moves), v.Get(stay));
            }
        );

    private static ObjectShape<Remedy.ReadAgain> ReadAgain() =>
        Shape.Object<Remedy.ReadAgain>(
            "read-again",
            "Read again, at these places.",
            o =>
            {
                var quantity = o.Required("quantity", Choices.Quantity, "what to read", r => r.Quantity);
                var places = o.Items("places", Terms.Title, FormatLimits.Evidence, "where", r => r.Places);
                var why = o.Required("why", Terms.Sentence, "why", r => r.Why);
                return v => new(v.Get(quantity), v.Get(places), v.Get(why));
            }
        );

    private static ObjectShape<Remedy.CannotBeTurnedIn> CannotBeTurnedIn() =>
        Shape.Object<Remedy.CannotBeTurnedIn>(
            "cannot-be-turned-in",
            "No whole number of steps does it.",
            o =>
            {
                var binding = o.Required("binding", Terms.Sentence, "which constraint binds", r => r.Binding);
                var help = o.Required("wouldHelp", Terms.Sentence, "what would help", r => r.WouldHelp);
                var nearest = o.Optional(
                    "nearest",
                    NearestObject,
                    "the setting that misses by least, for information",
                    r => r.Nearest
                );
                return v => new(v.Get(binding), v.Get(help)) { Nearest = v.Get(nearest) };
            }
        );

    private static ObjectShape<Remedy.Act> Act() =>
        Shape.Object<Remedy.Act>(
            "act",
            "Do or record something.",
            o =>
            {
                var what = o.Required("what", Terms.Sentence, "what", r => r.What);
                return v => new(v.Get(what));
            }
        );
}
