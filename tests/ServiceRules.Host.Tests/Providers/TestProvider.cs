using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace ServiceRules.Host.Tests.Providers;

/// <summary>
/// An OpenID provider of the tests: it knows one client and whoever it is told to, lets them through without asking, and can
/// be made to answer as it should not.
/// </summary>
internal sealed class TestProvider : IAsyncDisposable
{
    public const string ClientId = "servicerules";
    public const string ClientSecret = "known to both";

    private readonly WebApplication _app;
    private readonly ECDsa _key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly ECDsa _otherKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly ConcurrentDictionary<string, (string Nonce, string Challenge, string Back)> _codes = new(
        StringComparer.Ordinal
    );

    private TestProvider(WebApplication app) => _app = app;

    /// <summary>Where it is: under another name of this machine than the service, so that they are two sites to a browser.</summary>
    public Uri Authority { get; private set; } = null!;

    /// <summary>What it tells of whoever comes.</summary>
    public Dictionary<string, object> Claims { get; } = new(StringComparer.Ordinal) { ["sub"] = "subject-1" };

    /// <summary>Changes what a token says before it is signed.</summary>
    public Action<SecurityTokenDescriptor>? Forge { get; set; }

    /// <summary>Makes another token of the good one.</summary>
    public Func<string, string>? Rewrite { get; set; }

    /// <summary>Whether a key signs that it does not publish.</summary>
    public bool SignsWithAnotherKey { get; set; }

    /// <summary>Whether it lets nobody through.</summary>
    public bool Denies { get; set; }

    /// <summary>Whether it answers nothing but 500 where tokens are.</summary>
    public bool FailsAtTokens { get; set; }

    /// <summary>What the last one was asked with.</summary>
    public IReadOnlyDictionary<string, string> Asked { get; private set; } =
        new Dictionary<string, string>(StringComparer.Ordinal);

    /// <summary>What was wrong with what it was asked: nothing is let through then.</summary>
    public ConcurrentQueue<string> Wrong { get; } = new();

    public static async Task<TestProvider> StartAsync(int port = 0)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(System.Net.IPAddress.Loopback, port));
        var provider = new TestProvider(builder.Build());
        provider.Map();
        await provider._app.StartAsync();
        var address = provider
            ._app.Services.GetRequiredService<IServer>()
            .Features.Get<IServerAddressesFeature>()!
            .Addresses.First();
        provider.Authority = new Uri(
            string.Create(CultureInfo.InvariantCulture, $"http://localhost:{new Uri(address).Port}/shop")
        );
        return provider;
    }

    public async ValueTask DisposeAsync()
    {
        await _app.DisposeAsync();
        _key.Dispose();
        _otherKey.Dispose();
    }

    private void Map()
    {
        _app.MapGet(
            "/shop/.well-known/openid-configuration",
            () =>
                Results.Json(
                    new
                    {
                        issuer = Authority.AbsoluteUri,
                        authorization_endpoint = Authority.AbsoluteUri + "/authorize",
                        token_endpoint = Authority.AbsoluteUri + "/token",
                        jwks_uri = Authority.AbsoluteUri + "/keys",
                        response_types_supported = new[] { "code" },
                        subject_types_supported = new[] { "public" },
                        id_token_signing_alg_values_supported = new[] { "ES256" },
                    }
                )
        );
        _app.MapGet("/shop/keys", () => Results.Json(new { keys = new[] { Published() } }));
        _app.MapGet("/shop/authorize", Authorize);
        _app.MapPost("/shop/token", (Delegate)TokenAsync);
    }

    private object Published()
    {
        var point = _key.ExportParameters(includePrivateParameters: false).Q;
        return new
        {
            kty = "EC",
            use = "sig",
            kid = "one",
            alg = "ES256",
            crv = "P-256",
            x = Base64UrlEncoder.Encode(point.X),
            y = Base64UrlEncoder.Encode(point.Y),
        };
    }

    private IResult Authorize(HttpContext context)
    {
        Asked = context.Request.Query.ToDictionary(
            one => one.Key,
            one => one.Value.ToString(),
            StringComparer.Ordinal
        );
        Demand("client_id", ClientId);
        Demand("response_type", "code");
        Demand("code_challenge_method", "S256");
        var back = Asked.GetValueOrDefault("redirect_uri", "");
        var state = Asked.GetValueOrDefault("state", "");
        if (!Wrong.IsEmpty)
        {
            return Results.BadRequest();
        }

        if (Denies)
        {
            return Results.Redirect(
                QueryHelpers.AddQueryString(back, Said(("error", "access_denied"), ("state", state)))
            );
        }

        var code = Convert.ToHexString(RandomNumberGenerator.GetBytes(16));
        _codes[code] = (Asked.GetValueOrDefault("nonce", ""), Asked["code_challenge"], back);
        return Results.Redirect(QueryHelpers.AddQueryString(back, Said(("code", code), ("state", state))));
    }

    private async Task<IResult> TokenAsync(HttpContext context)
    {
        var form = await context.Request.ReadFormAsync();
        if (FailsAtTokens)
        {
            return Results.StatusCode(500);
        }

        // A code is good once, and for whoever knows what its challenge was made of.
        return
            form["client_id"] == ClientId
            && form["client_secret"] == ClientSecret
            && _codes.TryRemove(form["code"].ToString(), out var given)
            && form["redirect_uri"] == given.Back
            && Base64UrlEncoder.Encode(
                SHA256.HashData(Encoding.ASCII.GetBytes(form["code_verifier"].ToString()))
            ) == given.Challenge
            ? Results.Json(
                new
                {
                    token_type = "Bearer",
                    expires_in = 60,
                    access_token = "good for nothing",
                    id_token = Token(given.Nonce),
                }
            )
            : Results.Json(new { error = "invalid_grant" }, statusCode: 400);
    }

    private string Token(string nonce)
    {
        var now = TimeProvider.System.GetUtcNow().UtcDateTime;
        var told = new SecurityTokenDescriptor
        {
            Issuer = Authority.AbsoluteUri,
            Audience = ClientId,
            IssuedAt = now,
            NotBefore = now,
            Expires = now.AddMinutes(5),
            Claims = new Dictionary<string, object>(Claims, StringComparer.Ordinal) { ["nonce"] = nonce },
            SigningCredentials = new SigningCredentials(
                new ECDsaSecurityKey(SignsWithAnotherKey ? _otherKey : _key) { KeyId = "one" },
                SecurityAlgorithms.EcdsaSha256
            ),
        };
        Forge?.Invoke(told);
        var token = new JsonWebTokenHandler { SetDefaultTimesOnTokenCreation = false }.CreateToken(told);
        return Rewrite?.Invoke(token) ?? token;
    }

    private void Demand(string name, string value)
    {
        if (Asked.GetValueOrDefault(name) != value)
        {
            Wrong.Enqueue($"{name} is `{Asked.GetValueOrDefault(name)}`");
        }
    }

    private static Dictionary<string, string?> Said(params (string Name, string Value)[] said) =>
        said.ToDictionary(one => one.Name, one => (string?)one.Value, StringComparer.Ordinal);
}
