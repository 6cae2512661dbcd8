using System.Diagnostics;

namespace ServiceRules.Crash.Tests;

/// <summary>Processor time that a running process has used, in user and in system mode.</summary>
internal static class ProcessorTime
{
    public static TimeSpan Of(int processId)
    {
        using var process = Process.GetProcessById(processId);
        return process.TotalProcessorTime;
    }
}
