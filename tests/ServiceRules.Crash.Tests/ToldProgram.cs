using System.Collections.Concurrent;
using System.Net;
using System.Text;
using System.Text.Json;
using ServiceRules.TestKit;

namespace ServiceRules.Crash.Tests;

/// <summary>A notice that came.</summary>
internal sealed record HeardNotice(string Id, string Record);

/// <summary>A program that is told of holds: it keeps what came, and takes its time.</summary>
internal sealed class ToldProgram : IDisposable
{
    private readonly HttpListener listener = new();
    private readonly int port = FreePort.Find();

    public ToldProgram()
    {
        listener.Prefixes.Add($"http://127.0.0.1:{port}/");
        listener.Start();
        _ = Task.Run(ListenAsync);
    }

    /// <summary>What came, whether its sender heard the answer or not.</summary>
    public ConcurrentQueue<HeardNotice> Heard { get; } = [];

    /// <summary>For how long it keeps a sender waiting.</summary>
    public TimeSpan Pause { get; set; }

    /// <summary>Names this program in the settings of a service.</summary>
    public void NameIn(DataFolder folder)
    {
        if (OperatingSystem.IsWindows())
        {
            throw new SkipException("the folder is made private as Unix has it");
        }

        Directory.CreateDirectory(
            folder.Data,
            UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
        );
        var file = Path.Combine(folder.Data, "notices.json");
        File.WriteAllText(
            file,
            $$"""
            {
              "format": "service-notices/1",
              "service": "https://service.example",
              "webhooks": [
                {
                  "name": "workshop",
                  "address": "http://127.0.0.1:{{port}}/told",
                  "secret": "whsec_{{Convert.ToBase64String(
                Encoding.ASCII.GetBytes("no secret outside of a test")
            )}}"
                }
              ]
            }
            """
        );
        File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserWrite);
    }

    /// <summary>Returns once each of some records was told of, or after a time.</summary>
    /// <returns>Those it was not told of.</returns>
    public async Task<IReadOnlyList<string>> MissingAsync(IReadOnlyCollection<string> records, TimeSpan most)
    {
        using var enough = new CancellationTokenSource(most);
        while (true)
        {
            List<string> missing = [.. records.Except(Heard.Select(one => one.Record))];
            if (missing.Count == 0 || enough.IsCancellationRequested)
            {
                return missing;
            }

            await Task.Delay(50, CancellationToken.None);
        }
    }

    public void Dispose() => listener.Close();

    private async Task ListenAsync()
    {
        try
        {
            while (true)
            {
                var context = await listener.GetContextAsync();
                _ = Task.Run(() => HearAsync(context));
            }
        }
        catch (Exception end) when (end is HttpListenerException or ObjectDisposedException)
        {
            // That is how it ends.
        }
    }

    private async Task HearAsync(HttpListenerContext context)
    {
        try
        {
            using var told = await JsonDocument.ParseAsync(context.Request.InputStream);
            Heard.Enqueue(
                new(
                    told.RootElement.GetProperty("id").GetString()!,
                    told.RootElement.GetProperty("record").GetString()!
                )
            );
            await Task.Delay(Pause);
            context.Response.StatusCode = 204;
            context.Response.Close();
        }
        catch (Exception gone)
            when (gone is HttpListenerException or IOException or JsonException or ObjectDisposedException)
        {
            // Whoever sent it was killed meanwhile.
        }
    }
}
