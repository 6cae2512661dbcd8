namespace ServiceRules.Application.Accounts;

/// <summary>Under what somebody who signs in elsewhere is known there.</summary>
/// <param name="Provider">Who vouches for them, and by which of the things it tells: another provider knows others by that name.</param>
/// <param name="Name">What it calls them.</param>
public sealed record Elsewhere(string Provider, string Name)
{
    /// <summary>Providers call nobody by more (OpenID Connect Core 1.0, section 2).</summary>
    public const int NameMost = 255;
}
