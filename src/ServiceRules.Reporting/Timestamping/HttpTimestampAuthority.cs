using System.Diagnostics.CodeAnalysis;
using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Timestamping;

/// <summary>
/// A time-stamp authority asked over HTTP (RFC 3161, 3.4). One question, one answer, bounded in time and size; no
/// redirection, since the host is printed on the page.
/// </summary>
public sealed class HttpTimestampAuthority : ITimestampAuthority, IDisposable
{
    /// <summary>A token with a chain of three is about 6 KiB.</summary>
    public const int ReplyBytesMax = 16 * 1024;

    private const string Query = "application/timestamp-query";
    private const string Reply = "application/timestamp-reply";

    // RFC 3161, 2.4.1: a large number that makes the question unlike every other.
    private const int NonceBytes = 16;

    private readonly Uri _address;
    private readonly TimeSpan _timeLimit;
    private readonly HttpClient _client;

    [SuppressMessage("Reliability", "CA2000", Justification = "The client disposes of its handler.")]
    private HttpTimestampAuthority(Uri address, TimeSpan timeLimit)
    {
        _address = address;
        _timeLimit = timeLimit;
        _client = new HttpClient(
            new SocketsHttpHandler
            {
                AllowAutoRedirect = false,
                UseCookies = false,
                UseProxy = !address.IsLoopback,
            }
        )
        {
            Timeout = timeLimit,
            MaxResponseContentBufferSize = ReplyBytesMax,
        };
    }

    public static TimeSpan UsualTimeLimit { get; } = TimeSpan.FromSeconds(30);

    public string Host => _address.IsDefaultPort ? _address.IdnHost : $"{_address.IdnHost}:{_address.Port}";

    /// <summary>The authority at an address, or why the address cannot be used.</summary>
    public static (HttpTimestampAuthority? Authority, string? Fault) At(
        string given,
        TimeSpan? timeLimit = null
    )
    {
        const string Accepted = "accepted: https://HOST/PATH, or http:// on this machine itself";
        if (!Uri.TryCreate(given, UriKind.Absolute, out var address))
        {
            return (null, $"`{given}` is no address; {Accepted}");
        }
        var isSafe =
            address.Scheme == Uri.UriSchemeHttps
            || (address.Scheme == Uri.UriSchemeHttp && address.IsLoopback);
        if (!isSafe || address.UserInfo.Length > 0)
        {
            return (null, $"`{given}` is not asked for time-stamps; {Accepted}");
        }
        var authority = new HttpTimestampAuthority(address, timeLimit ?? UsualTimeLimit);
        if (SignatureReason.IsHost(authority.Host))
        {
            return (authority, null);
        }
        authority.Dispose();
        return (null, $"`{given}` names a host that cannot be printed; {Accepted}");
    }

    public async Task<byte[]> StampAsync(ReadOnlyMemory<byte> signature)
    {
        var request = Rfc3161TimestampRequest.CreateFromHash(
            SHA256.HashData(signature.Span),
            HashAlgorithmName.SHA256,
            nonce: RandomNumberGenerator.GetBytes(NonceBytes),
            requestSignerCertificates: true
        );
        var reply = await AskAsync(request.Encode());
        try
        {
            var token = request.ProcessResponse(reply, out var length);
            return length == reply.Length
                ? token.AsSignedCms().Encode()
                : throw Refused("its answer goes on behind the token");
        }
        catch (CryptographicException problem)
        {
            var fault = TimestampReply.TokenIn(reply) is { } token
                ? TimestampToken.Read(token, signature.Span).Fault
                : null;
            throw Refused($"its answer does not fit the question: {fault ?? problem.Message}", problem);
        }
    }

    public void Dispose() => _client.Dispose();

    private async Task<byte[]> AskAsync(byte[] query)
    {
        using var content = new ByteArrayContent(query);
        content.Headers.ContentType = new MediaTypeHeaderValue(Query);
        try
        {
            using var response = await _client.PostAsync(_address, content);
            if (response.StatusCode != HttpStatusCode.OK)
            {
                throw Refused($"it answered {(int)response.StatusCode}; accepted: 200");
            }
            return response.Content.Headers.ContentType?.MediaType == Reply
                ? await response.Content.ReadAsByteArrayAsync()
                : throw Refused(
                    $"it answered with `{response.Content.Headers.ContentType}`; accepted: {Reply}"
                );
        }
        catch (OperationCanceledException problem)
        {
            throw Refused($"no answer within {_timeLimit.TotalSeconds:0.###} s", problem);
        }
        catch (HttpRequestException problem)
            when (problem.HttpRequestError == HttpRequestError.ConfigurationLimitExceeded)
        {
            throw Refused($"its answer is larger than the {ReplyBytesMax} bytes that are accepted", problem);
        }
        catch (HttpRequestException problem)
        {
            throw Refused(problem.Message, problem);
        }
    }

    private TimestampException Refused(string why, Exception? cause = null) =>
        new($"no time-stamp of {Host}: {why}", cause);
}
