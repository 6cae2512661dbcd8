using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;

namespace ServiceRules.Host.Apis;

/// <summary>Answers as bytes, spelled as the interface spells them everywhere.</summary>
internal static class AnswerJson
{
    public static byte[] Bytes<T>(T answer, HttpContext context) =>
        JsonSerializer.SerializeToUtf8Bytes(answer, Options(context));

    /// <summary>How they are spelled, for where the request may have ended meanwhile.</summary>
    public static JsonSerializerOptions Options(HttpContext context) =>
        context.RequestServices.GetRequiredService<IOptions<JsonOptions>>().Value.SerializerOptions;
}
