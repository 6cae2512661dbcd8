using BenchmarkDotNet.Running;
using ServiceRules.Benchmarks;

if (args is ["filing", .. var rest])
{
    BenchmarkRunner.Run<FilingTogether>(args: rest);
}
else
{
    BenchmarkRunner.Run<JudgingOneRecord>(args: args);
}
