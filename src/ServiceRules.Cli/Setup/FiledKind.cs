using System.Text.Json;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Cli.Setup;

/// <summary>The kinds of document that are filed, by the words of the command line.</summary>
internal static class FiledKind
{
    public const string Record = "record";
    public const string SettingOrder = "setting-order";
    public const string Waiver = "waiver";
    public const string Rules = "rules";

    /// <summary>The kind that a document says it is; null when it says none of these.</summary>
    public static string? Said(ReadOnlyMemory<byte> bytes)
    {
        var said = Format(bytes)?.Split('/')[0];
        return said == RecordFormat.Current.Name ? Record
            : said == SettingOrderFormat.Current.Name ? SettingOrder
            : said == WaiverFormat.Current.Name || said == SiteFormat.Registers.Name ? Waiver
            : null;
    }

    private static string? Format(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using var document = JsonDocument.Parse(bytes);
            return
                document.RootElement.ValueKind is JsonValueKind.Object
                && document.RootElement.TryGetProperty("format", out var format)
                && format.ValueKind is JsonValueKind.String
                ? format.GetString()
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
