using System.Text.Json;
using System.Text.Json.Serialization;
using ServiceRules.Application.Filed;

namespace ServiceRules.Host.Setup;

/// <summary>Settings in a private file of the data folder, since secrets stand in it; read strictly.</summary>
internal static class PrivateSettings
{
    private const long BytesMost = 64 * 1024;

    private static readonly JsonSerializerOptions Strictly = new(JsonSerializerDefaults.Web)
    {
        AllowDuplicateProperties = false,
        NumberHandling = JsonNumberHandling.Strict,
        PropertyNameCaseInsensitive = false,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    };

    private static readonly JsonSerializerOptions WhateverElse = new(Strictly)
    {
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Skip,
    };

    /// <summary>Null where there is no such file.</summary>
    /// <param name="dataFolder">Where it lies.</param>
    /// <param name="fileName">What it is called.</param>
    /// <param name="shown">Where docs/service.md shows one.</param>
    /// <param name="faults">What is wrong with what it says.</param>
    /// <exception cref="StartRefusedException">It is not private, or cannot be what it should.</exception>
    public static T? Read<T>(
        string dataFolder,
        string fileName,
        string shown,
        Func<T, IReadOnlyList<string>> faults
    )
        where T : class
    {
        var file = new FileInfo(Path.Combine(dataFolder, fileName));
        if (!file.Exists)
        {
            return null;
        }

        if (PrivateFile.Fault(file.FullName) is { } open)
        {
            throw new StartRefusedException(open);
        }

        if (file.Length > BytesMost)
        {
            throw new StartRefusedException($"`{file.FullName}` is larger than {BytesMost} bytes");
        }

        try
        {
            using var content = file.OpenRead();
            var settings = JsonSerializer.Deserialize<T>(content, Strictly);
            IReadOnlyList<string> wrong = settings is null ? ["it says nothing"] : faults(settings);
            return wrong.Count == 0 ? settings : throw Refused(wrong);
        }
        catch (JsonException wrong)
        {
            // The message of the reader may repeat a value, and so a secret.
            throw Refused([
                $"it cannot be read at `{wrong.Path}`, line {wrong.LineNumber + 1}: a member that is unknown, missing, twice or of another kind",
                .. Beside(file, faults),
            ]);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw Refused([failure.Message]);
        }

        StartRefusedException Refused(IReadOnlyList<string> why) =>
            new([
                .. why.Select(one => $"`{file.FullName}`: {one}"),
                $"accepted: what docs/service.md shows under {shown}, or no such file",
            ]);
    }

    // What else is wrong where it can be read but for members that are unknown: all of it is told at once.
    private static IReadOnlyList<string> Beside<T>(FileInfo file, Func<T, IReadOnlyList<string>> faults)
        where T : class
    {
        try
        {
            using var content = file.OpenRead();
            return JsonSerializer.Deserialize<T>(content, WhateverElse) is { } settings
                ? faults(settings)
                : [];
        }
        catch (Exception none) when (none is JsonException or IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    /// <summary>An address as a person may be shown it: a name in it may come with a password.</summary>
    public static string Shown(Uri address) =>
        address.IsAbsoluteUri
            ? address.GetComponents(UriComponents.SchemeAndServer | UriComponents.Path, UriFormat.UriEscaped)
            : "one without a scheme";

    /// <summary>What others could read on the way goes nowhere but through TLS.</summary>
    public static bool IsSafe(Uri address) =>
        address.IsAbsoluteUri
        && address.UserInfo.Length == 0
        && (
            address.Scheme == Uri.UriSchemeHttps
            || (address.Scheme == Uri.UriSchemeHttp && address.IsLoopback)
        );
}
