namespace ServiceRules.TestKit;

/// <summary>How a run ended.</summary>
/// <param name="CpuTicks">Processor time of the whole process meanwhile, in ticks of 100 ns.</param>
public sealed record WarmAnswer(int ExitCode, string Output, string Error, long CpuTicks);
