using System.Globalization;
using System.Text.Json;

namespace ServiceRules.Host.Pages;

/// <summary>An entry of a timeline as a page tells it.</summary>
public sealed record ShownEvent(string At, string Event, string By, string About)
{
    private static readonly string[] Objects = ["source", "lock", "isolator", "position"];

    /// <summary>The timeline of a record, in the order of its entries.</summary>
    public static IReadOnlyList<ShownEvent> Of(ReadOnlyMemory<byte> record)
    {
        using var document = JsonDocument.Parse(record);
        return document.RootElement.TryGetProperty("timeline", out var timeline)
            ? [.. timeline.EnumerateArray().Select(Of)]
            : [];
    }

    private static ShownEvent Of(JsonElement entry) =>
        new(
            Shown(Text(entry, "at")),
            Text(entry, "event").Replace('_', ' '),
            Text(entry, "by"),
            string.Join(", ", Objects.Select(name => Text(entry, name)).Where(text => text.Length > 0))
        );

    // As it was entered, with its own offset, and no more digits than say something.
    private static string Shown(string at) =>
        DateTimeOffset.TryParse(at, CultureInfo.InvariantCulture, out var time)
            ? time.ToString(
                time.Second == 0 ? "yyyy-MM-dd HH:mm zzz" : "yyyy-MM-dd HH:mm:ss zzz",
                CultureInfo.InvariantCulture
            )
            : at;

    private static string Text(JsonElement entry, string name) =>
        entry.TryGetProperty(name, out var text) && text.ValueKind is JsonValueKind.String
            ? text.GetString() ?? ""
            : "";
}
