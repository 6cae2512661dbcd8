using BenchmarkDotNet.Running;
using ServiceRules.Benchmarks;

BenchmarkRunner.Run<JudgingOneRecord>(args: args);
