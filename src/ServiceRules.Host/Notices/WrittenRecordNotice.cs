using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using ServiceRules.Application.Notices;

namespace ServiceRules.Host.Notices;

/// <summary>A notice of an assessment.</summary>
internal sealed record WrittenRecordNotice(
    string Format,
    string Id,
    string Record,
    string Disposition,
    ImmutableArray<ToldNotice.OfUnit> Units,
    long Entry,
    DateTimeOffset FiledAt,
    Uri Link
) : WrittenNotice(Format, Id, Link)
{
    [JsonIgnore]
    public override DateTimeOffset At => FiledAt;

    [JsonIgnore]
    public override string Subject => $"{Disposition}: {Record}";

    [JsonIgnore]
    public override string Text =>
        string.Join(
            '\n',
            [
                $"Record {Record} came to {Disposition}.",
                "",
                .. Units.Select(unit => $"  {unit.Unit}: {unit.Disposition}"),
                "",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Entry {Entry} of the log, filed {FiledAt:yyyy-MM-dd HH:mm:ss} UTC."
                ),
                Link.AbsoluteUri,
                "",
            ]
        );

    public static WrittenRecordNotice Of(ToldNotice told, string log, string recipient, Uri service) =>
        new(
            "service-notice/1",
            NoticeId.Of(log, told.Entry, recipient),
            told.Record,
            told.Disposition,
            told.Units,
            told.Entry,
            told.FiledAt,
            Beneath(service, $"records/{Uri.EscapeDataString(told.Record)}")
        );

    public override byte[] ToJson() => JsonSerializer.SerializeToUtf8Bytes(this, JsonSerializerOptions.Web);
}
