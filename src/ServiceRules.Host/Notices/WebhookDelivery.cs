using System.Globalization;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Text;

namespace ServiceRules.Host.Notices;

/// <summary>Sends notices over HTTP, signed as Standard Webhooks has it.</summary>
internal sealed class WebhookDelivery(TimeProvider clock) : IDisposable
{
    private readonly HttpClient client = new(
        new SocketsHttpHandler
        {
            // It goes where the settings say and nowhere else.
            AllowAutoRedirect = false,
            UseCookies = false,
        }
    )
    {
        Timeout = TimeSpan.FromSeconds(15),
    };

    /// <returns>Why it was not taken; null: it was.</returns>
    public async Task<string?> SendAsync(WebhookSettings to, WrittenNotice notice, CancellationToken stop)
    {
        var body = notice.ToJson();
        var at = clock.GetUtcNow().ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture);
        using var request = new HttpRequestMessage(HttpMethod.Post, to.Address)
        {
            Content = new ByteArrayContent(body),
        };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        request.Headers.Add("webhook-id", notice.Id);
        request.Headers.Add("webhook-timestamp", at);
        request.Headers.Add("webhook-signature", Signature(to.Key, notice.Id, at, body));
        try
        {
            // What it says beside the status is not read.
            using var answer = await client.SendAsync(
                request,
                HttpCompletionOption.ResponseHeadersRead,
                stop
            );
            return answer.IsSuccessStatusCode
                ? null
                : string.Create(CultureInfo.InvariantCulture, $"answered {(int)answer.StatusCode}");
        }
        catch (HttpRequestException failure)
        {
            return $"not reached: {failure.HttpRequestError}";
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            return "no answer in time";
        }
    }

    public void Dispose() => client.Dispose();

    private static string Signature(byte[] key, string id, string at, byte[] body) =>
        "v1,"
        + Convert.ToBase64String(
            HMACSHA256.HashData(key, (byte[])[.. Encoding.UTF8.GetBytes($"{id}.{at}."), .. body])
        );
}
