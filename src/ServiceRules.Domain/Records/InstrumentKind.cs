namespace ServiceRules.Domain.Records;

/// <summary>Kinds of instrument.</summary>
public enum InstrumentKind
{
    /// <summary>Set of feelers.</summary>
    FeelerGauge,

    /// <summary>Height gauge bar.</summary>
    HeightGauge,

    /// <summary>Calliper.</summary>
    Calliper,

    /// <summary>Micrometer.</summary>
    Micrometer,

    /// <summary>Diameter (circumference) tape.</summary>
    DiameterTape,

    /// <summary>Dial gauge.</summary>
    DialGauge,

    /// <summary>Depth gauge.</summary>
    DepthGauge,

    /// <summary>Angle gauge.</summary>
    AngleGauge,

    /// <summary>Flat bench plate.</summary>
    BenchPlate,

    /// <summary>Test strip.</summary>
    PaperStrip,

    /// <summary>Piece of one fixed size: passes or does not.</summary>
    FixedSizePiece,
}
