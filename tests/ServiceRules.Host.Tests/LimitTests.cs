using System.Net;
using System.Net.Sockets;
using System.Text;

namespace ServiceRules.Host.Tests;

/// <summary>One address alone keeps nobody else out.</summary>
public sealed class LimitTests
{
    [Fact]
    public async Task Connections_OfOneAddress_AreBoundedAndOthersStillComeIn()
    {
        await using var run = await ServiceRun.StartAsync(change: settings =>
            settings with
            {
                Limits = settings.Limits with { ConnectionsOfOneAddress = 3 },
            }
        );
        var held = new List<TcpClient>();
        for (var times = 0; times < 3; times++)
        {
            held.Add(await ConnectedAsync(run, "127.0.0.2"));
        }

        Assert.Equal("", await AnswerAsync(run, "127.0.0.2"));
        Assert.StartsWith("HTTP/1.1 200", await AnswerAsync(run, "127.0.0.3"), StringComparison.Ordinal);
        held.ForEach(one => one.Dispose());
        for (var times = 0; times < 50 && await AnswerAsync(run, "127.0.0.2") is ""; times++)
        {
            await Task.Delay(100);
        }

        Assert.StartsWith("HTTP/1.1 200", await AnswerAsync(run, "127.0.0.2"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task SignIn_OneGuessAtEachOfManyNames_IsSlowedDown()
    {
        await using var run = await ServiceRun.StartAsync(change: settings =>
            settings with
            {
                Limits = settings.Limits with { SignInsAtOnce = 3, SignInsPerMinute = 1 },
            }
        );
        using var client = run.ClientWith(null);
        var statuses = new List<int>();
        for (var times = 0; times < 4; times++)
        {
            using var form = new FormUrlEncodedContent(
                new Dictionary<string, string> { ["name"] = "name-" + times, ["password"] = "none of hers" }
            );
            using var answer = await client.PostAsync(new Uri("sign-in", UriKind.Relative), form);
            statuses.Add((int)answer.StatusCode);
            if (times == 3)
            {
                Assert.True(answer.Headers.RetryAfter?.Delta > TimeSpan.FromSeconds(5));
            }
        }

        // The first ones lack the token of the form.
        Assert.Equal([403, 403, 403, 429], statuses);
        Assert.Equal(
            HttpStatusCode.OK,
            (await client.GetAsync(new Uri("sign-in", UriKind.Relative))).StatusCode
        );
    }

    [Fact]
    public async Task Browser_ThatAsksTooOften_IsToldByAPageWhatToDo()
    {
        await using var run = await ServiceRun.StartAsync(change: settings =>
            settings with
            {
                Limits = settings.Limits with { SignInsAtOnce = 1, SignInsPerMinute = 1 },
            }
        );
        using var client = run.ClientWith(null);
        client.DefaultRequestHeaders.Accept.ParseAdd("text/html,application/xhtml+xml;q=0.9,*/*;q=0.8");
        using var first = await SignInAsync(client);
        using var second = await SignInAsync(client);

        Assert.Equal(HttpStatusCode.Forbidden, first.StatusCode);
        Assert.Equal(HttpStatusCode.TooManyRequests, second.StatusCode);
        Assert.Equal("text/html", second.Content.Headers.ContentType?.MediaType);
        Assert.True(second.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        Assert.True(second.Headers.CacheControl?.NoStore);
        var page = await second.Content.ReadAsStringAsync();
        Assert.Contains("Wait a few seconds", page, StringComparison.Ordinal);
        Assert.Contains("Nothing was stored", page, StringComparison.Ordinal);
        Assert.Contains("href=\"/\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
    }

    private static async Task<HttpResponseMessage> SignInAsync(HttpClient client)
    {
        using var form = new FormUrlEncodedContent(
            new Dictionary<string, string> { ["name"] = "somebody", ["password"] = "none of theirs" }
        );
        return await client.PostAsync(new Uri("sign-in", UriKind.Relative), form);
    }

    private static async Task<TcpClient> ConnectedAsync(ServiceRun run, string from)
    {
        var client = new TcpClient(new IPEndPoint(IPAddress.Parse(from), 0));
        await client.ConnectAsync(IPAddress.Loopback, run.Service.Address.Port);
        // That it was taken is known once it answered.
        _ = await AskAsync(client);
        return client;
    }

    private static async Task<string> AnswerAsync(ServiceRun run, string from)
    {
        using var client = new TcpClient(new IPEndPoint(IPAddress.Parse(from), 0));
        try
        {
            await client.ConnectAsync(IPAddress.Loopback, run.Service.Address.Port);
        }
        catch (SocketException reset) when (reset.SocketErrorCode is SocketError.ConnectionReset)
        {
            // Turned away before the connecting was told of.
            return "";
        }

        return await AskAsync(client);
    }

    private static async Task<string> AskAsync(TcpClient client)
    {
        try
        {
            var stream = client.GetStream();
            await stream.WriteAsync(
                Encoding.ASCII.GetBytes("GET /health/live HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
            );
            var read = new byte[512];
            return Encoding.ASCII.GetString(read, 0, await stream.ReadAsync(read));
        }
        catch (IOException)
        {
            return "";
        }
    }
}
