using System.Collections.Immutable;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Setup;
using ServiceRules.Storage;

namespace ServiceRules.Host.Providers;

/// <summary>The provider that vouches for people, from a private file in the data folder: a secret stands in it.</summary>
/// <param name="Format">Which file it is.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Authority">Where it tells about itself: <c>/.well-known/openid-configuration</c> is looked for under it.</param>
/// <param name="ClientId">What it calls this service.</param>
/// <param name="ClientSecret">What it knows this service by.</param>
/// <param name="Claim">Which of the things it tells of somebody names the account.</param>
internal sealed partial record ProviderSettings(
    string Format,
    string Name,
    Uri Authority,
    string ClientId,
    string ClientSecret,
    string Claim
)
{
    public const string FileName = ServiceCopies.ProvidersName;

    /// <summary>An address of mail, which counts where the provider says that it was verified.</summary>
    public const string Mail = "email";

    /// <summary>What it calls somebody for good.</summary>
    public const string Subject = "sub";

    private const string Known = "service-sign-in/1";
    private const int TextMost = 500;
    private const int NameMost = 40;

    /// <summary>What is asked for beside <c>openid</c>; left out: what the claim needs as a rule.</summary>
    public ImmutableArray<string> Scopes { get; init; }

    /// <summary>Whether the provider asks again who it is although it knows: screens at benches are shared.</summary>
    public bool AsksAgain { get; init; } = true;

    /// <summary>How accounts name it: another provider, or another claim, would call others by the same name.</summary>
    [JsonIgnore]
    public string Vouching => $"{Authority.AbsoluteUri.TrimEnd('/')} {Claim}";

    [JsonIgnore]
    public IEnumerable<string> Asked =>
        !Scopes.IsDefault ? Scopes
        : Claim == Subject ? []
        : [Claim == Mail ? Mail : "profile"];

    /// <summary>Null where there is no such file: people sign in with passwords alone.</summary>
    /// <exception cref="StartRefusedException">It is not private, or cannot be what it should.</exception>
    public static ProviderSettings? Read(string dataFolder) =>
        PrivateSettings.Read<ProviderSettings>(
            dataFolder,
            FileName,
            "Signing in elsewhere",
            settings => [.. settings.Faults()]
        );

    /// <summary>Under what an account stands that the provider knows by a name.</summary>
    /// <returns>Null where nobody can be called so.</returns>
    public Elsewhere? Of(string name)
    {
        var plain = name.Trim();
        return plain.Length is 0 or > Elsewhere.NameMost || plain.Any(char.IsControl)
            ? null
            : new Elsewhere(Vouching, Claim == Mail ? plain.ToLowerInvariant() : plain);
    }

    private IEnumerable<string> Faults()
    {
        if (Format != Known)
        {
            yield return $"its format is not `{Known}`";
        }

        if (Name.Trim().Length is 0 or > NameMost || Name.Any(char.IsControl))
        {
            yield return $"`name` is empty or longer than {NameMost} characters";
        }

        if (!PrivateSettings.IsSafe(Authority) || Authority.Query.Length + Authority.Fragment.Length > 0)
        {
            yield return "`authority` is no address with https, or on loopback with http";
        }

        if (ClientId.Length is 0 or > TextMost)
        {
            yield return "`clientId` is empty or too long";
        }

        if (ClientSecret.Length is 0 or > TextMost)
        {
            yield return "`clientSecret` is empty or too long";
        }

        if (!Word().IsMatch(Claim))
        {
            yield return $"`claim` is no name of a claim; accepted: `{Subject}`, `{Mail}`, or what the provider calls another";
        }

        if (!Scopes.IsDefault && Scopes.Any(scope => scope is null || !Word().IsMatch(scope)))
        {
            yield return "a scope is none";
        }
    }

    [GeneratedRegex(
        "^[A-Za-z0-9_:./-]{1,200}$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture
    )]
    private static partial Regex Word();
}
