using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using ServiceRules.Evidence;

namespace ServiceRules.Host.Apis;

/// <summary>Answers that a client may keep, and ask whether they still hold (RFC 9110, section 13).</summary>
internal static class Conditional
{
    /// <param name="bytes">What is answered.</param>
    /// <param name="type">Of what kind it is.</param>
    /// <param name="name">The name of a file that it is saved as; null: it is shown.</param>
    public static IResult Of(ReadOnlyMemory<byte> bytes, string type, string? name = null) =>
        Results.Bytes(bytes, type, name, entityTag: TagOf(bytes));

    /// <summary>What names an answer, as long as it says the same.</summary>
    public static EntityTagHeaderValue TagOf(ReadOnlyMemory<byte> bytes) =>
        new($"\"{ContentHash.Of(bytes.Span).ToString()["sha256:".Length..]}\"");

    /// <summary>An answer as JSON.</summary>
    public static IResult Json<T>(T answer, HttpContext context) =>
        Of(AnswerJson.Bytes(answer, context), MediaTypes.Json);
}
