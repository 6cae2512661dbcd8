using System.Collections.Immutable;
using System.Text.Json;
using ServiceRules.Application.Notices;

namespace ServiceRules.Host.Notices;

/// <summary>A notice as it is sent, the same at each attempt.</summary>
/// <param name="Id">Names it among all notices of all services: whoever has seen it before does nothing.</param>
internal sealed record WrittenNotice(
    string Format,
    string Id,
    string Record,
    string Disposition,
    ImmutableArray<ToldNotice.OfUnit> Units,
    long Entry,
    DateTimeOffset FiledAt,
    Uri Link
)
{
    public static WrittenNotice Of(ToldNotice told, string log, string recipient, Uri service) =>
        new(
            "service-notice/1",
            NoticeId.Of(log, told.Entry, recipient),
            told.Record,
            told.Disposition,
            told.Units,
            told.Entry,
            told.FiledAt,
            new Uri($"{service.AbsoluteUri.TrimEnd('/')}/records/{Uri.EscapeDataString(told.Record)}")
        );

    public byte[] ToJson() => JsonSerializer.SerializeToUtf8Bytes(this, JsonSerializerOptions.Web);
}
