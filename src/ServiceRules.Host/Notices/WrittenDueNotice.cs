using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using ServiceRules.Application.Due;

namespace ServiceRules.Host.Notices;

/// <summary>A notice of something that falls due. Of a person's training it tells that there is one, and whose stands where the link leads.</summary>
/// <param name="Format">Which document it is.</param>
/// <param name="Id">Names it.</param>
/// <param name="Kind">What falls due.</param>
/// <param name="Thing">The gauge, the procedure or the unit; null: it is about a person.</param>
/// <param name="Due">The last day on which it is in time.</param>
/// <param name="Site">The site.</param>
/// <param name="FoundAt">When it was found.</param>
/// <param name="Link">Where all that falls due stands.</param>
internal sealed record WrittenDueNotice(
    string Format,
    string Id,
    string Kind,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Thing,
    DateOnly Due,
    string Site,
    DateTimeOffset FoundAt,
    Uri Link
) : WrittenNotice(Format, Id, Link)
{
    [JsonIgnore]
    public override DateTimeOffset At => FoundAt;

    [JsonIgnore]
    public override string Subject =>
        string.Create(CultureInfo.InvariantCulture, $"due {Due:yyyy-MM-dd}: {What}");

    [JsonIgnore]
    public override string Text =>
        string.Join(
            '\n',
            string.Create(
                CultureInfo.InvariantCulture,
                $"At {Site} this is due by {Due:yyyy-MM-dd}: {What}."
            ),
            "",
            Link.AbsoluteUri,
            ""
        );

    private string What => Thing is null ? Kind.Replace('-', ' ') : $"{Kind.Replace('-', ' ')}, {Thing}";

    public static WrittenDueNotice Of(ToldDueNotice told, string id, Uri service) =>
        new(
            "service-due-notice/1",
            id,
            DueWords.Of(told.Kind),
            told.Subject,
            told.Due,
            told.Site,
            told.At,
            Beneath(service, "due")
        );

    public override byte[] ToJson() => JsonSerializer.SerializeToUtf8Bytes(this, JsonSerializerOptions.Web);
}
