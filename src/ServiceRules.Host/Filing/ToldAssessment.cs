using System.Text.Json;

namespace ServiceRules.Host.Filing;

/// <summary>What is told of an assessment without its findings one by one.</summary>
/// <param name="Disposition">Whether the job may go out.</param>
/// <param name="Verdicts">How many findings there are of each verdict.</param>
internal sealed record ToldAssessment(string Disposition, IReadOnlyDictionary<string, int> Verdicts)
{
    /// <param name="bytes">An assessment as it is kept, of whatever version of the verdict semantics.</param>
    public static ToldAssessment Of(ReadOnlyMemory<byte> bytes)
    {
        using var document = JsonDocument.Parse(bytes);
        return new(
            document.RootElement.GetProperty("job").GetProperty("disposition").GetString()!,
            document.RootElement.TryGetProperty("findings", out var findings)
                ? findings
                    .EnumerateArray()
                    .CountBy(finding => finding.GetProperty("verdict").GetString()!)
                    .ToDictionary(StringComparer.Ordinal)
                : new Dictionary<string, int>(StringComparer.Ordinal)
        );
    }
}
