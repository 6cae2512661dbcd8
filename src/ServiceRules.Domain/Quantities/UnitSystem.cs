namespace ServiceRules.Domain.Quantities;

/// <summary>The two systems in which manuals, gauges and people state lengths.</summary>
public enum UnitSystem
{
    /// <summary>Millimetres and micrometres.</summary>
    Metric,

    /// <summary>Inches and thousandths of an inch.</summary>
    Inch,
}
