using System.Text.Json;
using ServiceRules.Client;

namespace ServiceRules.Host.Tests.Clients;

/// <summary>Records as the client has them.</summary>
internal static class TypedRecord
{
    public static ServiceRecord Of(byte[] record) => JsonSerializer.Deserialize<ServiceRecord>(record)!;

    /// <summary>All that a file of an answer holds.</summary>
    public static async Task<byte[]> BytesAsync(Task<FileResponse> asked)
    {
        using var file = await asked;
        using var held = new MemoryStream();
        await file.Stream.CopyToAsync(held);
        return held.ToArray();
    }

    public static async Task<string> TextAsync(Task<FileResponse> asked) =>
        System.Text.Encoding.UTF8.GetString(await BytesAsync(asked));
}
