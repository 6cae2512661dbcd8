using Microsoft.AspNetCore.Http;

namespace ServiceRules.Host.Problems;

/// <summary>A body came that is of another kind than the one taken at this address.</summary>
/// <param name="accepted">The media type that is.</param>
internal sealed class OtherKindException(string accepted)
    : BadHttpRequestException("another kind", StatusCodes.Status415UnsupportedMediaType)
{
    public string Accepted { get; } = accepted;
}
