using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>A zero check: what the instrument read away from the setting piece's value (positive: reads high).</summary>
/// <param name="Error">Reading minus the setting piece's value.</param>
/// <param name="SettingPiece">Which piece.</param>
public sealed record ZeroCheck(PrintedLength Error, string? SettingPiece);
