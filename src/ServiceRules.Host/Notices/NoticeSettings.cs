using System.Collections.Immutable;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using ServiceRules.Application.Notices;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Host.Setup;
using ServiceRules.Storage;

namespace ServiceRules.Host.Notices;

/// <summary>Whom the site names, from a private file in the data folder: secrets stand in it.</summary>
/// <param name="Format">Which file it is.</param>
/// <param name="Service">Where those who are told reach the service: links begin with it.</param>
internal sealed partial record NoticeSettings(string Format, Uri Service)
{
    public const string FileName = ServiceCopies.NoticesName;

    private const string OnDue = "due";

    private const string Known = "service-notices/1";

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
    public static NoticeSettings? Read(string dataFolder) =>
        PrivateSettings.Read<NoticeSettings>(
            dataFolder,
            FileName,
            "Notices",
            settings => settings.Fault() is { } fault ? [fault] : []
        );

    private static NoticeRecipients.One One(string name, ImmutableArray<string> on, string? site) =>
        new(
            name,
            on.IsDefault
                ? [Disposition.Hold, Disposition.Stop]
                :
                [
                    .. on.Where(word => word != OnDue)
                        .Select(word => word == "stop" ? Disposition.Stop : Disposition.Hold),
                ]
        )
        {
            OnDue = !on.IsDefault && on.Contains(OnDue),
            Site = site,
        };

    private string? Fault()
    {
        if (Format != Known)
        {
            return $"its format is not `{Known}`";
        }

        if (!PrivateSettings.IsSafe(Service))
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
            : Ons().Any(on => on.IsEmpty || on.Any(word => word is not ("hold" or "stop" or OnDue)))
                ? "`on` is empty or holds another word than `hold`, `stop` or `due`"
            : Webhooks.Select(one => one.Fault()).FirstOrDefault(fault => fault is not null) ?? Mail?.Fault();
    }

    private IEnumerable<ImmutableArray<string>> Ons() =>
        Webhooks
            .Select(one => one.On)
            .Concat((Mail?.To ?? []).Select(one => one.On))
            .Where(on => !on.IsDefault);

    [GeneratedRegex("^[a-z0-9-]{1,40}$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex PlainName();
}
