using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using Microsoft.Net.Http.Headers;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Accounts;

/// <summary>Lets programs in by a key: <c>Authorization: Bearer KEY</c> (RFC 6750, section 2.1).</summary>
internal sealed class KeyScheme(
    IOptionsMonitor<AuthenticationSchemeOptions> options,
    ILoggerFactory loggers,
    UrlEncoder encoder,
    KeyMaking keys,
    ServedSites sites
) : AuthenticationHandler<AuthenticationSchemeOptions>(options, loggers, encoder)
{
    public const string Name = "key";

    private const string Word = "Bearer ";

    // Longer than any key; nothing is gained by hashing what a stranger sends.
    private const int KeyMost = 128;

    protected override Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var given = Request.Headers.Authorization;
        if (given.Count == 0)
        {
            return Task.FromResult(AuthenticateResult.NoResult());
        }

        if (
            given is not [{ Length: <= KeyMost } value]
            || !value.StartsWith(Word, StringComparison.OrdinalIgnoreCase)
            || keys.Opened(value[Word.Length..].Trim()) is not { } key
        )
        {
            return Task.FromResult(AuthenticateResult.Fail("the key opens nothing"));
        }

        var identity = new ClaimsIdentity(Caller.Claims(key, sites.SeenBy(key.Site)), Name);
        return Task.FromResult(
            AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), Name))
        );
    }

    protected override Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Response.Headers[HeaderNames.WWWAuthenticate] = "Bearer";
        return base.HandleChallengeAsync(properties);
    }
}
