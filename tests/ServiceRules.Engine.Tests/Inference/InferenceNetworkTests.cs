using System.Globalization;
using FsCheck.Xunit;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Tests.Inference;

public class InferenceNetworkTests
{
    private static readonly Production[] Chain =
    [
        Production.When("even", new DivisibleBy(2), new Put("even")),
        Production.When("third", new DivisibleBy(3), new Put("third")),
        Production.When("also even", new DivisibleBy(2), new Put("pair")),
        Production.When("large", new AtLeast(10), new Put("large")),
        Production.When("even twelve", new LabelIs("even 12"), new PutAgain("dozen")),
        Production.When("large twelve", new LabelIs("large 12"), new PutAgain("dozen")),
        Production.When("dozen", new LabelIs("dozen"), new PutAgain("counted")),
        Production.When("neighbours", new FollowsBy(1), new PutPair("next")),
    ];

    [Fact]
    public void Run_ChainedProductions_YieldsWhatFollowsWorkedOutByHand()
    {
        var known = InferenceNetwork.Compile(Chain, 100).Run([new Number(11), new Number(12)]);

        Assert.Equal(
            ["counted", "dozen", "even 12", "large 11", "large 12", "next 11 12", "pair 12", "third 12"],
            Samples.Labels(known)
        );
    }

    [Property(MaxTest = 40)]
    public void Run_EachProductionAloneAndAllTogetherShuffled_AgreeWithAPlainLoop(int seed)
    {
        var random = new Random(seed);
        var numbers = Enumerable.Range(0, 12).Select(_ => random.Next(40)).Distinct().ToArray();
        var independent = Enumerable
            .Range(2, 9)
            .Select(d => (Divisor: d, Name: string.Create(CultureInfo.InvariantCulture, $"by{d % 5} {d}")))
            .ToArray();
        // Equal conditions under different names, so that the network has something to share.
        Production Of(int divisor, string name) =>
            Production.When(name, new DivisibleBy(2 + (divisor % 4)), new Put(name));
        var expected = independent
            .SelectMany(p =>
                numbers
                    .Where(n => n % (2 + (p.Divisor % 4)) == 0)
                    .Select(n => string.Create(CultureInfo.InvariantCulture, $"{p.Name} {n}"))
            )
            .Order(StringComparer.Ordinal)
            .ToArray();

        var alone = independent
            .SelectMany(p =>
                Samples.Labels(
                    InferenceNetwork
                        .Compile([Of(p.Divisor, p.Name)], 1000)
                        .Run(numbers.Select(n => new Number(n)))
                )
            )
            .Order(StringComparer.Ordinal);
        var shuffled = independent.OrderBy(_ => random.Next()).Select(p => Of(p.Divisor, p.Name));
        var together = InferenceNetwork
            .Compile(shuffled, 1000)
            .Run(numbers.OrderBy(_ => random.Next()).Select(n => new Number(n)));

        Assert.Equal(expected, alone);
        Assert.Equal(expected, Samples.Labels(together));
    }

    [Property(MaxTest = 25)]
    public void Run_ProductionsAndFactsInAnyOrder_KnowsTheSame(int seed)
    {
        var random = new Random(seed);
        Fact[] facts = [new Number(6), new Number(11), new Number(12), new Number(13)];
        var inOrder = Samples.Sorted(InferenceNetwork.Compile(Chain, 1000).Run(facts));

        var shuffled = InferenceNetwork
            .Compile(Chain.OrderBy(_ => random.Next()), 1000)
            .Run(facts.OrderBy(_ => random.Next()));

        Assert.Equal(inOrder, Samples.Sorted(shuffled));
    }

    [Fact]
    public void Run_ConditionThrows_IsAFaultAndNotAMiss()
    {
        var network = InferenceNetwork.Compile(
            [.. Chain, Production.When("throws", new Throwing(), new Put("never"))],
            100
        );

        var fault = Assert.Throws<EngineFaultException>(() => network.Run([new Number(12)]));

        Assert.Contains("cannot judge 12", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_AfterAFault_NextRunIsUntouched()
    {
        var network = InferenceNetwork.Compile(
            [
                Production.When("fails on ten", new ThrowsOn(10), new Put("passed")),
                Production.When("even", new DivisibleBy(2), new Put("even")),
            ],
            100
        );

        Assert.Throws<EngineFaultException>(() => network.Run([new Number(8), new Number(10)]));

        Assert.Equal(["even 8", "passed 8"], Samples.Labels(network.Run([new Number(8)])));
    }

    [Fact]
    public void Run_ConsequenceThrows_IsAFault()
    {
        var network = InferenceNetwork.Compile(
            [Production.When("throws", new AtLeast(0), new ThrowingConsequence())],
            100
        );

        var fault = Assert.Throws<EngineFaultException>(() => network.Run([new Number(1)]));

        Assert.Contains("cannot conclude", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_FeedsItselfForever_IsAFaultAtTheBound()
    {
        var network = InferenceNetwork.Compile(
            [Production.When("counts on", new AtLeast(0), new CountOn())],
            50
        );

        var fault = Assert.Throws<EngineFaultException>(() => network.Run([new Number(0)]));

        Assert.Contains("50 firings", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_ExactlyAtTheBound_ComesToRest()
    {
        var network = InferenceNetwork.Compile(
            [Production.When("even", new DivisibleBy(2), new Put("even"))],
            3
        );

        Assert.Equal(3, Samples.Labels(network.Run([new Number(2), new Number(4), new Number(6)])).Length);
    }

    [Fact]
    public void Run_SameFactTwice_IsAFault()
    {
        var network = InferenceNetwork.Compile(Chain, 100);

        var fault = Assert.Throws<EngineFaultException>(() => network.Run([new Number(7), new Number(7)]));

        Assert.Contains("given twice", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Compile_SameNameTwice_IsAFault()
    {
        var fault = Assert.Throws<EngineFaultException>(() =>
            InferenceNetwork.Compile([Chain[0], Chain[1], Chain[0]], 10)
        );

        Assert.Contains("`even`", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_FromManyThreadsOnAFreshNetwork_AllKnowTheSame()
    {
        for (var round = 0; round < 20; round++)
        {
            var network = InferenceNetwork.Compile(Chain, 100);
            var all = new string[8][];

            Parallel.For(
                0,
                all.Length,
                new ParallelOptions { MaxDegreeOfParallelism = 4 },
                i => all[i] = Samples.Sorted(network.Run([new Number(11), new Number(12)]))
            );

            Assert.All(all, each => Assert.Equal(all[0], each));
        }
    }

    private sealed record ThrowsOn(int Value) : ICondition<Number>
    {
        public bool Holds(Number fact) =>
            fact.Value != Value ? true : throw new InvalidOperationException("cannot judge");
    }
}
