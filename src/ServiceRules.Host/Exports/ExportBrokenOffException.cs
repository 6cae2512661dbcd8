namespace ServiceRules.Host.Exports;

/// <summary>A file is not written any further.</summary>
/// <param name="why">Why there will be none; null: somebody else writes it.</param>
public sealed class ExportBrokenOffException(string? why) : Exception(why ?? "somebody else writes it")
{
    public string? Why { get; } = why;
}
