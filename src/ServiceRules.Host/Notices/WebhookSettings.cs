using System.Collections.Immutable;
using System.Text.Json.Serialization;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Notices;

/// <summary>A program that is told.</summary>
/// <param name="Name">What it is called in notices.</param>
/// <param name="Address">Where it takes them.</param>
/// <param name="Secret">What its notices are signed with: <c>whsec_</c> and 24 to 64 bytes in Base64.</param>
internal sealed record WebhookSettings(string Name, Uri Address, string Secret)
{
    private const string Prefix = "whsec_";
    private const int FewestBytes = 24;
    private const int MostBytes = 64;

    public ImmutableArray<string> On { get; init; }

    /// <summary>The site that it is told of; left out: every one.</summary>
    public string? Site { get; init; }

    [JsonIgnore]
    public byte[] Key => Convert.FromBase64String(Secret[Prefix.Length..]);

    public string? Fault() =>
        !PrivateSettings.IsSafe(Address)
            ? $"the address of `{Name}`, `{PrivateSettings.Shown(Address)}`, is none with https, or on loopback with http, and without a name in it"
        : !IsSecret(Secret)
            ? $"the secret of `{Name}` is none; accepted: `{Prefix}` and {FewestBytes} to {MostBytes} random bytes in Base64"
        : null;

    private static bool IsSecret(string secret)
    {
        Span<byte> key = stackalloc byte[MostBytes];
        return secret.StartsWith(Prefix, StringComparison.Ordinal)
            && Convert.TryFromBase64String(secret[Prefix.Length..], key, out var bytes)
            && bytes >= FewestBytes;
    }
}
