using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json;

namespace ServiceRules.Formats.Registers;

/// <summary>The setting order as a document: `setting-orders/*.json` of a site.</summary>
public static class SettingOrderFormat
{
    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<SettingOrder> Current { get; } =
        new("setting-order", 1, ReadLimits.Record, SettingOrderShapes.Order);
}
