using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json;

namespace ServiceRules.Formats.Registers;

/// <summary>A waiver as a document of its own, as it is filed.</summary>
public static class WaiverFormat
{
    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<Waiver> Current { get; } =
        new("waiver", 1, ReadLimits.Record, RegisterShapes.Waiver);
}
