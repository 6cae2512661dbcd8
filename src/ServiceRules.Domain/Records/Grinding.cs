using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>Metal was removed.</summary>
public sealed record Grinding : BenchEntry
{
    /// <summary>What was ground.</summary>
    public required GrindingKind Kind { get; init; }

    /// <summary>Reel diameter (or lip height) before.</summary>
    public PrintedLength? Before { get; init; }

    /// <summary>Reel diameter (or lip height) after.</summary>
    public PrintedLength? After { get; init; }

    /// <summary>The quantity whose size before and after it states.</summary>
    public MeasuredQuantity States =>
        Kind is GrindingKind.BedknifeTop or GrindingKind.BedknifeFront
            ? MeasuredQuantity.BedknifeLip
            : MeasuredQuantity.ReelDiameter;
}
