#include <gtest/gtest.h>
#include "fixed_starts.hpp"
#include "plant_models/supplies/grid.hpp"
#include "published_motors.hpp"
#include "start_script.hpp"
namespace {
using namespace published;
void f(const StartScript& script, const plant_models::GridParameters& grid){
    const auto solver = run_by_cvode(script, plant_models::Grid(grid), 1e-13);
    const auto size = largest(solver.rows);
    double before=0, cb=0, cs=0;
    const auto fine=run_from_stop_to_stop(script, sim::Instant(6250));
    for (int h : {200000,100000,50000,25000, 12500}){
        const auto ours=run_from_stop_to_stop(script, sim::Instant(h));
        const auto e=largest_difference(ours.rows, solver.rows), ef=largest_difference(ours.rows, fine.rows);
        double sum=0, sf=0; for(std::size_t k=0;k<observed_count;++k){ sum+=e[k]*e[k]/size[k]/size[k]; sf+=ef[k]*ef[k]/size[k]/size[k];}
        sum=std::sqrt(sum); sf=std::sqrt(sf);
        printf("h %d ev %d err %.3e order %.2f | fine ref %.3e %.2f | closure %.3e order %.2f\n", h, ours.events, sum, std::log2(before/sum), sf, std::log2(cs/sf), ours.closure, std::log2(cb/ours.closure));
        before=sum; cb=ours.closure; cs=sf;
    }
}
TEST(Order, A) { f(reference_start(120), reference_grid()); }
TEST(Order, B) { f(reference_start(0), reference_grid()); }
TEST(Order, C) { f(thyristor_fed_start(), fifty_hertz_grid()); }
}
