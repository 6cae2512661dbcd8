using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary>The bytes of a request, as they were sent: what they say is for the reader of documents to tell.</summary>
internal static class RequestBody
{
    /// <summary>A document in JSON.</summary>
    /// <exception cref="BadHttpRequestException">It is of another kind, too large, or does not arrive.</exception>
    public static Task<ReadOnlyMemory<byte>> ReadAsync(
        HttpRequest request,
        ServiceLimits limits,
        CancellationToken stop
    ) => ReadAsync(request, MediaTypes.Json, limits.BodyBytes, stop);

    /// <exception cref="BadHttpRequestException">It is of another kind, too large, or does not arrive.</exception>
    public static async Task<ReadOnlyMemory<byte>> ReadAsync(
        HttpRequest request,
        string kind,
        int most,
        CancellationToken stop
    )
    {
        CheckKind(request, kind);
        using var held = new MemoryStream();
        var block = new byte[64 * 1024];
        int count;
        while ((count = await request.Body.ReadAsync(block, stop)) > 0)
        {
            await held.WriteAsync(block.AsMemory(0, count), stop);
            if (held.Length > most)
            {
                throw new BadHttpRequestException("too large", StatusCodes.Status413PayloadTooLarge);
            }
        }

        return held.ToArray();
    }

    private static void CheckKind(HttpRequest request, string kind)
    {
        var isIt =
            MediaTypeHeaderValue.TryParse(request.ContentType, out var type)
            && type.MediaType.Equals(kind, StringComparison.OrdinalIgnoreCase)
            && (
                !type.Charset.HasValue
                || HeaderUtilities
                    .RemoveQuotes(type.Charset)
                    .Equals("utf-8", StringComparison.OrdinalIgnoreCase)
            );
        if (!isIt || request.Headers.ContentEncoding.Count > 0)
        {
            throw new OtherKindException(kind);
        }
    }
}
