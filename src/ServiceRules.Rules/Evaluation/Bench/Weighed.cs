using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>What one kind of evidence at one place amounts to.</summary>
/// <param name="Knowledge">What is known, if anything; of readings that conflict, what the latest tell by themselves.</param>
/// <param name="Conflicts">The readings contradict one another.</param>
/// <param name="Doubt">Why it cannot prove anything, or None.</param>
internal readonly record struct Weighed(Knowledge? Knowledge, bool Conflicts, FindingReason Doubt)
{
    /// <summary>What a measured value shares with every other reading of its one gauge, if it has one.</summary>
    public SharedError? Shared { get; init; }

    /// <summary>Its one gauge, if it has one.</summary>
    public Id<Instrument>? Gauge { get; init; }

    /// <summary>Feelers tried before a step, moved with it, tell something that those tried since do not.</summary>
    public bool CountsEarlierTries { get; init; }

    /// <summary>Feelers tried before a turn that was noted as a distance play no part.</summary>
    public bool LeavesOutTries { get; init; }

    /// <summary>The step taken of a gauge that states no resolution, or none that is believed; none where each does.</summary>
    public StepTaken? StepTaken { get; init; }

    /// <summary>What stands behind the scale of a gauge that has to be told; none where a certificate as good as most does.</summary>
    public GaugeScale? Scale { get; init; }

    /// <summary>What was read, where a zero check's error was taken out of it; of readings that contradict one another each.</summary>
    public ImmutableArray<ZeroCorrected> Corrected { get; init; } = [];

    /// <summary>How the last two gauges agree, where more than one read; or how a gauge contradicts itself.</summary>
    public GaugeComparison? Gauges { get; init; }

    /// <summary>A gauge of less standing that contradicts those that count, if any does.</summary>
    public GaugeOutvoted? Outvoted { get; init; }

    /// <summary>How many of its readings count, where some contradict the last of them; none where all do.</summary>
    public ReadingsCounted? Counted { get; init; }

    /// <summary>What is left to be believed of readings that contradict one another; see <see cref="PlaceKnown.Contested"/>.</summary>
    public ImmutableArray<Knowledge> Contested { get; init; } = [];

    /// <summary>Read twice or more, alike.</summary>
    public bool IsReadTwice { get; init; }

    /// <summary>Feelers that exclude one another with nothing turned between; none where none do.</summary>
    public Contradiction? Contradiction { get; init; }

    /// <summary>The value without the doubt of steps turned since, where there were any.</summary>
    public MeasuredValue? AsRead { get; init; }

    public static Weighed Nothing => new(null, false, FindingReason.None);
}
