#define BOOST_TEST_MODULE starter_plan
#include <boost/test/unit_test.hpp>
