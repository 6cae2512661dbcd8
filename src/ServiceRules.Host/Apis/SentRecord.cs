using System.Text.Json;
using ServiceRules.Formats.Json;

namespace ServiceRules.Host.Apis;

/// <summary>What is asked of a body before it is read as a record.</summary>
internal static class SentRecord
{
    /// <summary>The identity that it states; null where it states none, and is no record.</summary>
    public static string? IdOf(ReadOnlyMemory<byte> body)
    {
        try
        {
            using var document = JsonDocument.Parse(
                body,
                new JsonDocumentOptions { MaxDepth = ReadLimits.Depth }
            );
            return
                document.RootElement.ValueKind is JsonValueKind.Object
                && document.RootElement.TryGetProperty("id", out var id)
                && id.ValueKind is JsonValueKind.String
                ? id.GetString()
                : null;
        }
        // The second: a text with half of a surrogate pair.
        catch (Exception none) when (none is JsonException or InvalidOperationException)
        {
            return null;
        }
    }
}
