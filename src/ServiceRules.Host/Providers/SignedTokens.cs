using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace ServiceRules.Host.Providers;

/// <summary>
/// Takes signed tokens alone. What comes straight from the provider may go unsigned by OpenID Connect Core 1.0, section
/// 3.1.3.7, and the framework lets it; whoever answers in the provider's place could then write what they like.
/// </summary>
internal sealed class SignedTokens : JsonWebTokenHandler
{
    public SignedTokens() => MapInboundClaims = false;

    public override Task<TokenValidationResult> ValidateTokenAsync(
        string token,
        TokenValidationParameters validationParameters
    )
    {
        ArgumentNullException.ThrowIfNull(validationParameters);
        var demanding = validationParameters.Clone();
        demanding.RequireSignedTokens = true;
        return base.ValidateTokenAsync(token, demanding);
    }
}
