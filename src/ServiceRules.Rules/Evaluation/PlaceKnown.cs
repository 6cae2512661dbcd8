using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation;

/// <summary>What is known at one place (a station, or the whole width) of one quantity, all readings combined.</summary>
public sealed record PlaceKnown
{
    /// <summary>Distance from the left end; null: one place, or the whole width.</summary>
    public required Length? Station { get; init; }

    /// <summary>Reel blade, where one was named.</summary>
    public required int? Blade { get; init; }

    /// <summary>Fresh, carried with more doubt, stale, or contradicting itself.</summary>
    public required KnownState State { get; init; }

    /// <summary>
    /// Value with uncertainty, or interval; null when only sights were noted or nothing holds. Of feelers that contradict
    /// what the steps before them should have made of the gap, and of lengths whose last few agree while too much says
    /// otherwise, what they tell by themselves: it shows a breach, and <see cref="Doubt"/> keeps it from proving anything met.
    /// </summary>
    public required Knowledge? Knowledge { get; init; }

    /// <summary>
    /// Where readings contradict one another, so that nothing is known: all that may be believed of them, each by itself.
    /// Every length by itself; of feelers as many as can be true together. What all of these show is shown.
    /// </summary>
    public ImmutableArray<Knowledge> Contested { get; init; } = [];

    /// <summary>
    /// What its gauge told of a measured value before known steps since then added doubt; null where none were turned.
    /// </summary>
    public MeasuredValue? AsRead { get; init; }

    /// <summary>A length was read or a feeler tried here, whether or not that still holds.</summary>
    public bool IsGauged { get; init; }

    /// <summary>Feelers tried as left, in order: what a procedural limit looks at.</summary>
    public ImmutableArray<FeelerTried> Feelers { get; init; } = [];

    /// <summary>
    /// Whether the interval known here is narrower for feelers that were tried before steps which are known, moved with
    /// those steps: last no-go, one step, first go.
    /// </summary>
    public bool CountsEarlierTries { get; init; }

    /// <summary>
    /// Whether feelers tried before a turn that was noted as a distance are left out of what is known here: how far such a turn
    /// moved the gap nobody knows.
    /// </summary>
    public bool LeavesOutTries { get; init; }

    /// <summary>Whether what is known here was read twice or more, alike, so that one slip does not tell it.</summary>
    public bool IsReadTwice { get; init; }

    /// <summary>Contact heard and felt, if noted, and noted in one way.</summary>
    public ContactState? Contact { get; init; }

    /// <summary>
    /// What contact may be: as noted; noted in two ways with nothing turned between, what was noted last, where that was noted twice
    /// running, else each of them. What all of these show is shown, and none proves anything in.
    /// </summary>
    public ImmutableArray<ContactState> ContactBelieved { get; init; } = [];

    /// <summary>Contact noted in two ways with nothing turned between; none where it was not.</summary>
    public Contradiction? ContactContradiction { get; init; }

    /// <summary>Feelers that exclude one another with nothing turned between; none where none do.</summary>
    public Contradiction? FeelerContradiction { get; init; }

    /// <summary>Contact noted where a gap was read, with nothing turned between; none where there is no such thing.</summary>
    public Contradiction? GapContradiction { get; init; }

    /// <summary>Feelers or contact contradict one another with nothing turned between, which trying again does not settle.</summary>
    public bool IsUnturned =>
        FeelerContradiction is not null || ContactContradiction is not null || GapContradiction is not null;

    /// <summary>Paper result, if noted.</summary>
    public PaperResult? Paper { get; init; }

    /// <summary>Condition seen, if noted.</summary>
    public Condition? Condition { get; init; }

    /// <summary>
    /// Unit system that the readings were taken in: picks the print of a dual limit. Where they were taken in both, the one
    /// that its sheet governs by.
    /// </summary>
    public required UnitSystem System { get; init; }

    /// <summary>Whether its readings are not all of one unit system: then both prints of a dual limit hold it.</summary>
    public bool IsReadInBoth { get; init; }

    /// <summary>Why the knowledge cannot prove anything (gauge unfit, uncertainty unknown, conflicting), or None.</summary>
    public FindingReason Doubt { get; init; } = FindingReason.None;

    /// <summary>
    /// The part of a measured value's uncertainty that every reading with the same gauge shares (its calibration and
    /// zero); it drops out of differences. None where no one gauge read. Of contested readings what each of them shares.
    /// </summary>
    public SharedError? Shared { get; init; }

    /// <summary>The one gauge that a measured value was read with; null: several, or none named.</summary>
    public Id<Instrument>? Gauge { get; init; }

    /// <summary>The step taken of a gauge that read here and states no resolution, or none that is believed; null where each does.</summary>
    public StepTaken? StepTaken { get; init; }

    /// <summary>What stands behind the scale of a gauge that read here; null where a certificate as good as most does.</summary>
    public GaugeScale? Scale { get; init; }

    /// <summary>
    /// What was read here, where the error that a gauge's zero check states was taken out of it; of contested readings each.
    /// </summary>
    public ImmutableArray<ZeroCorrected> Corrected { get; init; } = [];

    /// <summary>
    /// How the last two gauges that read here agree, nothing having moved between, or by how much one gauge contradicts
    /// itself; none where there is nothing to compare.
    /// </summary>
    public GaugeComparison? Gauges { get; init; }

    /// <summary>
    /// A gauge of less standing (not in the register, or without a certificate) that contradicts one of better standing; none where
    /// none does. It keeps the place from being met and changes no value.
    /// </summary>
    public GaugeOutvoted? Outvoted { get; init; }

    /// <summary>Gauges that read here what they cannot read.</summary>
    public ImmutableArray<GaugeMisused> Misused { get; init; } = [];

    /// <summary>How many of its readings count, where some contradict the last of them; none where all do.</summary>
    public ReadingsCounted? Counted { get; init; }

    /// <summary>Entries it rests on, as JSON pointers.</summary>
    public required ImmutableArray<string> Evidence { get; init; }
}
