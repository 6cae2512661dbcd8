using System.ComponentModel;
using System.Diagnostics;

namespace ServiceRules.TestKit;

/// <summary>
/// The built command line with a home folder that holds nothing: run as users run it, as a process of its own, where
/// <see cref="Alone"/> or other settings of the machine ask for it; else in a process that is kept for many runs. The test
/// project references the command line, so that program and rules stand beside the tests.
/// </summary>
public sealed class Product : IDisposable
{
    // Far beyond what any run needs on a busy machine: longer means that it hangs.
    private static readonly TimeSpan TimeLimit = TimeSpan.FromSeconds(90);

    private static readonly TimeSpan BetweenLooks = TimeSpan.FromMilliseconds(10);

    private readonly Dictionary<string, string> environment = new(StringComparer.Ordinal);
    private bool isAlone;

    public Product()
    {
        Folder = Directory.CreateTempSubdirectory("servicerules-test-").FullName;
        var home = Directory.CreateDirectory(Path.Combine(Folder, "home")).FullName;
        environment["HOME"] = home;
        environment["XDG_DATA_HOME"] = home;
        environment["LOCALAPPDATA"] = home;
        environment["LC_ALL"] = "C.UTF-8";
        environment["TZ"] = "UTC";
    }

    /// <summary>A folder for the files of one test, gone with it.</summary>
    public string Folder { get; }

    /// <summary>The same program under other settings of the machine.</summary>
    public Product With(string variable, string value)
    {
        environment[variable] = value;
        return Alone();
    }

    /// <summary>The same program, each run a process of its own: what it takes of the machine is its own too.</summary>
    public Product Alone()
    {
        isAlone = true;
        return this;
    }

    public string Write(string name, byte[] content)
    {
        var path = At(name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, content);
        return path;
    }

    public string At(string name) => Path.Combine(Folder, name);

    public ProductOutcome Run(params string[] arguments) =>
        isAlone
            ? Run(new ProcessStartInfo("dotnet", [Program, .. arguments]))
            : WarmProduct.Run(WarmProgram, Folder, environment, arguments, TimeLimit);

    /// <summary>Runs it with its standard output going to a file, which may be one that takes nothing.</summary>
    public ProductOutcome RunInto(string output, params string[] arguments) =>
        Run(
            new ProcessStartInfo(
                "sh",
                ["-c", "out=$1; shift; exec dotnet \"$@\" >\"$out\"", "sh", output, Program, .. arguments]
            )
        );

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static string Program => Beside("servicerules.dll");

    private static string WarmProgram => Beside("ServiceRules.WarmProgram.dll");

    private static string Beside(string name)
    {
        var program = Path.Combine(AppContext.BaseDirectory, name);
        return File.Exists(program)
            ? program
            : throw new FileNotFoundException(
                "this test project does not reference the command line",
                program
            );
    }

    private ProductOutcome Run(ProcessStartInfo start)
    {
        start.RedirectStandardInput = true;
        start.RedirectStandardOutput = true;
        start.RedirectStandardError = true;
        start.WorkingDirectory = Folder;
        foreach (var (variable, value) in environment)
        {
            start.Environment[variable] = value;
        }

        using var process = Process.Start(start)!;
        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        var use = Watch(process, string.Join(' ', start.ArgumentList));
        return new ProductOutcome(
            process.ExitCode,
            output.GetAwaiter().GetResult(),
            error.GetAwaiter().GetResult(),
            use.Cpu,
            use.PeakBytes
        );
    }

    /// <summary>Both figures only grow while the process lives, so the last look is its use to within one look.</summary>
    private static (TimeSpan Cpu, long PeakBytes) Watch(Process process, string told)
    {
        var (cpu, peak) = (TimeSpan.Zero, 0L);
        var running = Stopwatch.StartNew();
        while (!process.WaitForExit(BetweenLooks))
        {
            if (running.Elapsed > TimeLimit)
            {
                process.Kill(entireProcessTree: true);
                throw new TimeoutException($"`{told}` still ran after {TimeLimit.TotalSeconds} s");
            }

            try
            {
                process.Refresh();
                (cpu, peak) = (process.TotalProcessorTime, Math.Max(peak, process.PeakWorkingSet64));
            }
            catch (Exception failure) when (failure is InvalidOperationException or Win32Exception)
            {
                // It ended between the two questions.
            }
        }

        return (cpu, peak);
    }
}
