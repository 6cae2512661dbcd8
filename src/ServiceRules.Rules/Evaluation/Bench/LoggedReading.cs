using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>A reading at its place in the bench log, with what was and what will be disturbed around it.</summary>
/// <param name="Index">Its index among the entries of the unit.</param>
/// <param name="Pointer">Its evidence pointer.</param>
/// <param name="Quantity">The quantity read.</param>
/// <param name="Place">Where.</param>
/// <param name="Observed">What was observed.</param>
/// <param name="Gauge">With what, if it is named.</param>
/// <param name="IsFound">Nothing before it disturbed the quantity.</param>
/// <param name="Since">What was done to the quantity after it.</param>
/// <param name="VoidedBy">Pointer of the last entry that disturbed the quantity after it, if any did.</param>
internal sealed record LoggedReading(
    int Index,
    string Pointer,
    MeasuredQuantity Quantity,
    PlaceKey Place,
    Observation Observed,
    Instrument? Gauge,
    bool IsFound,
    Disturbances.Effect Since,
    string? VoidedBy
)
{
    /// <summary>
    /// How many entries after it disturb its quantity: readings of one place with as many have nothing turned between them, which
    /// equal doubt since then does not say.
    /// </summary>
    public int DisturbedAfter { get; init; }

    /// <summary>When, if it was noted.</summary>
    public RecordedTime? At { get; init; }

    /// <summary>What it was read with cannot read it; none where it can, or nothing is named.</summary>
    public GaugeMisused? Misused => Gauge is null ? null : GaugeMisused.Of(Gauge, Quantity, Observed);

    /// <summary>
    /// The length that it tells: what was written down less the error that its gauge's zero check states; none where no length was
    /// read. Here a reading and its gauge become one, and everything that is told of lengths rests on this.
    /// </summary>
    public Length? Told =>
        Observed is Observation.Measured measured ? measured.Value.Value - StatedZero.ErrorOf(Gauge) : null;

    /// <summary>Something made it void: its own adjuster was turned, or something else voided it.</summary>
    public bool IsVoid => Since.IsStale || Since.TurnedItself;

    /// <summary>The system of units that it was taken in; none for a sight.</summary>
    public UnitSystem? System =>
        Observed switch
        {
            Observation.Measured measured => measured.Value.System,
            Observation.FeelerTest test => test.Feelers[0].System,
            _ => null,
        };

    /// <summary>Every system of units that it was taken in: two where feelers of both are stacked.</summary>
    public IEnumerable<UnitSystem> Systems =>
        Observed switch
        {
            Observation.Measured measured => [measured.Value.System],
            Observation.FeelerTest test => test.Feelers.Select(feeler => feeler.System),
            _ => [],
        };

    /// <summary>The same reading as it stood when it was taken: nothing done since.</summary>
    public LoggedReading AsTaken() => this with { Since = default, VoidedBy = null, DisturbedAfter = 0 };
}
