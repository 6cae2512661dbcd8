using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Notices;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Host.Notices;

/// <summary>Whom the site names, from a private file in the data folder: secrets stand in it.</summary>
/// <param name="Format">Which file it is.</param>
/// <param name="Service">Where those who are told reach the service: links begin with it.</param>
internal sealed partial record NoticeSettings(string Format, Uri Service)
{
    public const string FileName = "notices.json";

    private const string Known = "service-notices/1";
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

    public ImmutableArray<WebhookSettings> Webhooks { get; init; } = [];

    public MailSettings? Mail { get; init; }

    [JsonIgnore]
    public NoticeRecipients Recipients =>
        new([
            .. Webhooks.Select(one => One(one.Name, one.On, one.Site)),
            .. (Mail?.To ?? []).Select(one => One(one.Name, one.On, one.Site)),
        ]);

    /// <summary>Null where there is no such file: nobody is told.</summary>
    /// <exception cref="StartRefusedException">It is not private, or cannot be what it should.</exception>
    public static NoticeSettings? Read(string dataFolder)
    {
        var file = new FileInfo(Path.Combine(dataFolder, FileName));
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
            var settings = JsonSerializer.Deserialize<NoticeSettings>(content, Strictly);
            return settings is null ? throw Refused(file, "it says nothing")
                : settings.Fault() is { } fault ? throw Refused(file, fault)
                : settings;
        }
        catch (JsonException wrong)
        {
            // The message of the reader may repeat a value, and so a secret.
            throw Refused(
                file,
                $"it cannot be read at `{wrong.Path}`, line {wrong.LineNumber + 1}: a member that is unknown, missing, twice or of another kind"
            );
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw Refused(file, failure.Message);
        }
    }

    private static StartRefusedException Refused(FileInfo file, string why) =>
        new(
            $"`{file.FullName}`: {why}",
            "accepted: what docs/service.md shows under Notices, or no such file"
        );

    private static NoticeRecipients.One One(string name, ImmutableArray<string> on, string? site) =>
        new(
            name,
            on.IsDefault
                ? [Disposition.Hold, Disposition.Stop]
                : [.. on.Select(word => word == "stop" ? Disposition.Stop : Disposition.Hold)]
        )
        {
            Site = site,
        };

    private string? Fault()
    {
        if (Format != Known)
        {
            return $"its format is not `{Known}`";
        }

        if (!IsSafe(Service))
        {
            return "`service` is no address with https, or on loopback with http";
        }

        if (Webhooks.Any(one => one is null) || Mail?.To.Any(one => one is null) == true)
        {
            return "a recipient is null";
        }

        var names = Recipients.All.Select(one => one.Name).ToList();
        return names.FirstOrDefault(name => !PlainName().IsMatch(name)) is { } unfit
                ? $"`{unfit}` is no name; accepted: 1 to 40 of a-z, 0-9 and -"
            : names.Count == 0 ? "it names nobody"
            : names.Distinct(StringComparer.Ordinal).Count() != names.Count
                ? "a name stands for two recipients"
            : Ons().Any(on => on.IsEmpty || on.Any(word => word is not ("hold" or "stop")))
                ? "`on` is empty or holds another word than `hold` or `stop`"
            : Webhooks.Select(one => one.Fault()).FirstOrDefault(fault => fault is not null) ?? Mail?.Fault();
    }

    private IEnumerable<ImmutableArray<string>> Ons() =>
        Webhooks
            .Select(one => one.On)
            .Concat((Mail?.To ?? []).Select(one => one.On))
            .Where(on => !on.IsDefault);

    /// <summary>What others could read on the way goes nowhere but through TLS.</summary>
    internal static bool IsSafe(Uri address) =>
        address.IsAbsoluteUri
        && address.UserInfo.Length == 0
        && (
            address.Scheme == Uri.UriSchemeHttps
            || (address.Scheme == Uri.UriSchemeHttp && address.IsLoopback)
        );

    [GeneratedRegex("^[a-z0-9-]{1,40}$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex PlainName();
}
