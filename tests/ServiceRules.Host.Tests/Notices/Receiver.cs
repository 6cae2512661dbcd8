using System.Collections.Concurrent;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;

namespace ServiceRules.Host.Tests.Notices;

/// <summary>A program that is told: it keeps what came, and answers as it is asked to.</summary>
internal sealed class Receiver : IAsyncDisposable
{
    private readonly WebApplication _app;

    private Receiver(WebApplication app) => _app = app;

    public ConcurrentQueue<Heard> All { get; } = new();

    /// <summary>What it answers to the how-manieth request.</summary>
    public Func<int, int> Answer { get; set; } = _ => 204;

    public Uri Address => new(_app.Urls.Single() + "/told");

    public static async Task<Receiver> StartAsync(int port = 0)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls($"http://127.0.0.1:{port}");
        var app = builder.Build();
        var receiver = new Receiver(app);
        app.Run(receiver.HearAsync);
        await app.StartAsync();
        return receiver;
    }

    public async Task<IReadOnlyList<Heard>> UntilAsync(int count)
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (All.Count < count)
        {
            await Task.Delay(20, enough.Token);
        }

        return [.. All];
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private async Task HearAsync(HttpContext context)
    {
        using var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body);
        All.Enqueue(
            new(
                context.Request.Headers["webhook-id"].ToString(),
                context.Request.Headers["webhook-timestamp"].ToString(),
                context.Request.Headers["webhook-signature"].ToString(),
                body.ToArray()
            )
        );
        context.Response.StatusCode = Answer(All.Count);
    }

    internal sealed record Heard(string Id, string At, string Signature, byte[] Body);
}
