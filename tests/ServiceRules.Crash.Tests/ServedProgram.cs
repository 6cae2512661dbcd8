using System.Diagnostics;
using System.Net.Http.Headers;
using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Crash.Tests;

/// <summary>The built program, serving in a process of its own that can be killed at any moment.</summary>
internal sealed class ServedProgram : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);

    private readonly Process process;
    private bool isDisposed;
    private readonly StringBuilder complaints = new();
    private readonly TaskCompletionSource<Uri?> listening = new(
        TaskCreationOptions.RunContinuationsAsynchronously
    );

    private ServedProgram(Process process) => this.process = process;

    public int ProcessId => process.Id;

    public bool IsOver => process.HasExited;

    public int ExitCode => process.ExitCode;

    /// <summary>What it said on standard error so far.</summary>
    public string Complaints
    {
        get
        {
            lock (complaints)
            {
                return complaints.ToString();
            }
        }
    }

    /// <summary>Starts it, and does not wait for anything.</summary>
    /// <param name="data">Its private folder.</param>
    public static ServedProgram Launch(string data)
    {
        var start = new ProcessStartInfo(
            "dotnet",
            [
                Path.Combine(AppContext.BaseDirectory, "servicerules.dll"),
                "serve",
                "--data",
                data,
                "--rules",
                ReferenceFiles.InRepository("rules"),
                "--port",
                "0",
            ]
        )
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        var program = new ServedProgram(Process.Start(start)!);
        program.Listen();
        return program;
    }

    /// <summary>Starts it, and waits until it says where it listens.</summary>
    public static async Task<ServedProgram> StartAsync(string data)
    {
        var program = Launch(data);
        if (await program.AddressAsync() is null)
        {
            var told = program.Complaints;
            program.Dispose();
            throw new InvalidOperationException($"the service did not start: {told}");
        }

        return program;
    }

    /// <summary>Where it listens; null once it ended without listening.</summary>
    public Task<Uri?> AddressAsync() => listening.Task.WaitAsync(Patience);

    /// <summary>Asks it, with a key.</summary>
    public async Task<HttpClient> ClientAsync(string key)
    {
        var client = new HttpClient { BaseAddress = await AddressAsync(), Timeout = Patience };
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        return client;
    }

    /// <summary>Signal 9: it can do nothing more.</summary>
    public async Task KillAsync()
    {
        if (!process.HasExited)
        {
            process.Kill();
        }

        await EndedAsync();
    }

    /// <summary>Signal 15: it ends what is under way.</summary>
    public async Task StopAsync()
    {
        var told = Tool.Require("sh").Run("-c", $"kill -TERM {process.Id}");
        Assert.True(told.ExitCode == 0, told.StandardError);
        await EndedAsync();
    }

    public Task EndedAsync() => process.WaitForExitAsync().WaitAsync(Patience);

    public void Dispose()
    {
        if (isDisposed)
        {
            return;
        }

        isDisposed = true;
        if (!process.HasExited)
        {
            process.Kill();
        }

        process.Dispose();
    }

    private void Listen()
    {
        const string Before = "ServiceRules listens on ";
        process.OutputDataReceived += (_, line) =>
        {
            if (line.Data is null)
            {
                listening.TrySetResult(null);
            }
            else if (line.Data.StartsWith(Before, StringComparison.Ordinal))
            {
                listening.TrySetResult(new Uri(line.Data[Before.Length..].Split(' ')[0]));
            }
        };
        process.ErrorDataReceived += (_, line) =>
        {
            lock (complaints)
            {
                complaints.AppendLine(line.Data);
            }
        };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }
}
