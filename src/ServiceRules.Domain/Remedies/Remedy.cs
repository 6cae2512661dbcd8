using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Remedies;

/// <summary>What to do about a finding. A closed family.</summary>
public abstract record Remedy
{
    private Remedy() { }

    /// <summary>
    /// Turn an adjuster by whole steps; signed: positive opens (or raises), negative closes (or lowers).
    /// </summary>
    /// <param name="Adjuster">What to turn.</param>
    /// <param name="LeftSteps">Signed steps on the left.</param>
    /// <param name="RightSteps">Signed steps on the right.</param>
    /// <param name="Sequence">One step at a time, in the order to turn them.</param>
    /// <param name="Predicted">What will result, by place from the left.</param>
    /// <param name="Again">What must be read again afterwards.</param>
    public sealed record Turn(
        AdjusterKind Adjuster,
        int LeftSteps,
        int RightSteps,
        ImmutableArray<SingleStep> Sequence,
        ImmutableArray<PredictedGap> Predicted,
        ImmutableArray<MeasuredQuantity> Again
    ) : Remedy
    {
        /// <summary>
        /// What a step really obtains, where readings before and after known steps proved it to be other than the sheet
        /// says: the steps are counted with it. None: counted with the sheet's step.
        /// </summary>
        public Length? LearnedStep { get; init; }

        /// <summary>How far <see cref="LearnedStep"/> may be off either way; none where it is none.</summary>
        public Length? LearnedStepDoubt { get; init; }

        /// <summary>The side alone that the step was learned on; null: both, or not learned.</summary>
        public Side? LearnedSide { get; init; }

        /// <summary>Places that by what was read will still lie outside, where only a part of the way is told; from the left.</summary>
        public ImmutableArray<PredictedGap> StillOut { get; init; } = [];

        /// <summary>What keeps a part of the way from being all of it, in words; null where all of it is told.</summary>
        public string? Binds { get; init; }

        /// <summary>
        /// After so many single steps it is read before the next: should an adjuster whose steps were proven smaller obtain the
        /// sheet's step again, the next could touch. None where that cannot happen.
        /// </summary>
        public int? ReadAfter { get; init; }

        /// <summary>
        /// Counted from the least that the readings leave, with the most that a step may take, and predicted so, because more steps at once might touch: to be
        /// read and turned again.
        /// </summary>
        public bool IsLeast { get; init; }
    }

    /// <summary>From contact of unknown depth: open until it just frees at both ends, then open this many more.</summary>
    public sealed record OpenUntilFree(
        AdjusterKind Adjuster,
        int ThenOpen,
        ImmutableArray<MeasuredQuantity> Again
    ) : Remedy;

    /// <summary>Move a setting by a distance, at each adjuster: signed, positive raises or opens.</summary>
    public sealed record Move(
        AdjusterKind Adjuster,
        Length Left,
        Length Right,
        ImmutableArray<MeasuredQuantity> Again
    ) : Remedy
    {
        /// <summary>The distance on the left as parts of a turn, where the sheet states the thread.</summary>
        public HeightTurns? LeftTurns { get; init; }

        /// <summary>The distance on the right as parts of a turn, where the sheet states the thread.</summary>
        public HeightTurns? RightTurns { get; init; }

        /// <summary>
        /// What one part of a turn really obtains, where readings before and after known parts told it and the turns are
        /// counted with it; none: counted with the sheet's ratio.
        /// </summary>
        public Length? LearnedPart { get; init; }
    }

    /// <summary>Bring the units of a machine together: these are moved, those stay.</summary>
    /// <param name="Adjuster">What to move on each of them.</param>
    /// <param name="Moves">The fewest units that do it, by name.</param>
    /// <param name="Stay">The units that stay as they are, by name.</param>
    public sealed record MoveUnits(
        AdjusterKind Adjuster,
        ImmutableArray<UnitMove> Moves,
        ImmutableArray<string> Stay
    ) : Remedy;

    /// <summary>Read again, at these places.</summary>
    public sealed record ReadAgain(MeasuredQuantity Quantity, ImmutableArray<string> Places, string Why)
        : Remedy;

    /// <summary>No whole number of steps does it: which constraint binds, and what would help.</summary>
    public sealed record CannotBeTurnedIn(string Binding, string WouldHelp) : Remedy
    {
        /// <summary>The setting that misses by least, for information; none when it cannot be told.</summary>
        public NearestTurn? Nearest { get; init; }
    }

    /// <summary>Do or record something, in words.</summary>
    public sealed record Act(string What) : Remedy;
}
