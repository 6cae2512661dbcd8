using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text;
using System.Text.Json;

namespace ServiceRules.TestKit;

/// <summary>
/// A process that runs the command line again and again (<c>ServiceRules.WarmProgram</c>), so that it is compiled once and
/// not for every run. One run at a time; as many processes as tests run side by side.
/// </summary>
internal sealed class WarmProduct : IDisposable
{
    // Sessions of a database and the like may grow with every run: a process is not kept for ever.
    private const int MostRuns = 100;

    private static readonly ConcurrentBag<WarmProduct> s_idle = [];

    private readonly Process _process;
    private int _runs;

    private WarmProduct(string program)
    {
        var start = new ProcessStartInfo("dotnet", [program])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            StandardInputEncoding = new UTF8Encoding(false),
            StandardOutputEncoding = new UTF8Encoding(false),
        };
        // A zone is read once in a process.
        start.Environment["TZ"] = "UTC";
        _process = Process.Start(start)!;
    }

    public static ProductOutcome Run(
        string program,
        string folder,
        IReadOnlyDictionary<string, string> environment,
        string[] arguments,
        TimeSpan limit
    )
    {
        var warm = s_idle.TryTake(out var idle) ? idle : new WarmProduct(program);
        try
        {
            var outcome = warm.Run(new WarmRequest(folder, environment, arguments), limit);
            if (++warm._runs < MostRuns)
            {
                s_idle.Add(warm);
                warm = null;
            }

            return outcome;
        }
        finally
        {
            warm?.Dispose();
        }
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
        }

        _process.Dispose();
    }

    private ProductOutcome Run(WarmRequest request, TimeSpan limit)
    {
        _process.StandardInput.WriteLine(JsonSerializer.Serialize(request));
        _process.StandardInput.Flush();
        var answering = _process.StandardOutput.ReadLineAsync();
        var told = string.Join(' ', request.Arguments);
        if (!answering.Wait(limit))
        {
            throw new TimeoutException($"`{told}` still ran after {limit.TotalSeconds} s");
        }

        var answer = JsonSerializer.Deserialize<WarmAnswer>(
            answering.Result ?? throw new InvalidOperationException($"`{told}` ended the whole process")
        )!;
        return new ProductOutcome(
            answer.ExitCode,
            answer.Output,
            answer.Error,
            TimeSpan.FromTicks(answer.CpuTicks),
            PeakBytes: null
        );
    }
}
