using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Site;

namespace ServiceRules.Domain.Records;

/// <summary>An instrument used in the job, with the evidence of its fitness that the shop really has.</summary>
public sealed record Instrument
{
    /// <summary>Which instrument.</summary>
    public required Id<Instrument> Id { get; init; }

    /// <summary>Its kind.</summary>
    public required InstrumentKind Kind { get; init; }

    /// <summary>Smallest step it shows.</summary>
    public PrintedLength? Resolution { get; init; }

    /// <summary>Half width of the thickness tolerance of each feeler in a set, or of a fixed-size piece.</summary>
    public PrintedLength? Tolerance { get; init; }

    /// <summary>How the tolerances of its feelers come together in a stack; absent: in the worst case.</summary>
    public StackRule? Stacking { get; init; }

    /// <summary>Repeatability of a reading as a standard deviation, pooled by the shop.</summary>
    public PrintedLength? Repeatability { get; init; }

    /// <summary>Studies of its repeatability, which are pooled; in place of <see cref="Repeatability"/>.</summary>
    public ImmutableArray<RepeatabilityStudy> RepeatabilityStudies { get; init; } = [];

    /// <summary>Calibration against a traceable standard.</summary>
    public Calibration? Calibration { get; init; }

    /// <summary>Check on a setting piece at the start of the job.</summary>
    public ZeroCheck? ZeroCheck { get; init; }

    /// <summary>The same check again at the end of the job: how far the zero moved in between.</summary>
    public ZeroCheck? ZeroCheckAfter { get; init; }

    /// <summary>Inspect-or-replace, for feelers and plates.</summary>
    public InstrumentInspection? Inspection { get; init; }

    /// <summary>
    /// What the site's register says of it, put beside it when a record is judged and never written in one; absent: the site keeps
    /// no register of gauges.
    /// </summary>
    public RegisterWord? Register { get; init; }

    /// <summary>
    /// The sizes that a piece of fixed size was tried as in the job, least first, put beside it when a record is judged and never
    /// written in one; empty: of no piece, or not tried. It can have one only.
    /// </summary>
    public ImmutableArray<PrintedLength> SizesTried { get; init; } = [];
}
